// SPDX-License-Identifier: MIT
#include "signal/baseband.hpp"

#include "base/expects.hpp"
#include "signal/window.hpp"

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr std::size_t shortest_window = 16; // samples; under this the window has no shape
constexpr std::size_t shape_length = 64; // of the window whose correlation is summed: 0.1 % of a longer one

/// Real and imaginary part of window times rotation.
struct Kernel {
    Eigen::VectorXf real, imaginary;
};

/// The window, normalised, times the rotation that turns the reference to 0 Hz, phase 0 at its middle.
Kernel make_kernel(std::size_t length, double radians_per_sample)
{
    const auto window = blackman_harris_window(length);
    double sum = 0.0;
    for (const double weight : window) sum += weight;
    const auto count = static_cast<Eigen::Index>(length);
    Kernel kernel{Eigen::VectorXf(count), Eigen::VectorXf(count)};
    const double middle = 0.5 * (static_cast<double>(length) - 1.0);
    // Rounding of the recurrence: 1e-16 for each step, 1e-13 for the longest windows.
    const auto step = std::polar(1.0, -radians_per_sample);
    auto rotation = std::polar(2.0 / sum, radians_per_sample * middle);
    for (Eigen::Index i = 0; i < count; ++i) {
        const double weight = window[static_cast<std::size_t>(i)];
        kernel.real[i] = static_cast<float>(weight * rotation.real());
        kernel.imaginary[i] = static_cast<float>(weight * rotation.imag());
        rotation *= step;
    }
    return kernel;
}

std::complex<double> weighted_sum(const Kernel& kernel, const float* samples)
{
    const Eigen::Map<const Eigen::VectorXf> heard(samples, kernel.real.size());
    return {static_cast<double>(kernel.real.dot(heard)), static_cast<double>(kernel.imaginary.dot(heard))};
}

/// Sum of the correlation of window-filtered white noise over all lags of a hop, in values.
double correlation_sum(int values_per_window)
{
    const auto window = blackman_harris_window(shape_length);
    const std::size_t hop = shape_length / static_cast<std::size_t>(values_per_window);
    double zero = 0.0, all = 0.0;
    for (std::size_t lag = 0; lag < window.size(); lag += hop) {
        double product = 0.0;
        for (std::size_t i = 0; i + lag < window.size(); ++i) product += window[i] * window[i + lag];
        if (lag == 0) zero = product;
        all += lag == 0 ? product : 2.0 * product;
    }
    return all / zero;
}

} // namespace

std::optional<Baseband> extract_baseband(const SampleHistory& samples, double rate_hz,
                                         const BasebandRequest& request)
{
    HARPKEEP_EXPECTS(request.reference_hz > 0.0 && request.reference_hz < 0.5 * rate_hz);
    HARPKEEP_EXPECTS(request.window_s > 0.0 && request.values_per_window >= 1 &&
                     request.values_per_window <= 16);

    const auto from = static_cast<std::int64_t>(std::ceil(request.from_s * rate_hz));
    const auto to = static_cast<std::int64_t>(std::floor(request.to_s * rate_hz));
    const auto span = samples.range(from, to);
    if (span.empty()) return std::nullopt;
    const std::int64_t first = std::max(from, samples.first());

    const auto wanted = static_cast<std::size_t>(std::llround(request.window_s * rate_hz));
    const std::size_t length = std::max(wanted, shortest_window);
    const std::size_t hop =
        std::max<std::size_t>(1, length / static_cast<std::size_t>(request.values_per_window));
    if (span.size() < 2 * length) return std::nullopt;

    const Kernel kernel = make_kernel(length, 2.0 * std::numbers::pi * request.reference_hz / rate_hz);
    const double middle = 0.5 * (static_cast<double>(length) - 1.0);

    Baseband band{.reference_hz = request.reference_hz,
                  .first_s = (static_cast<double>(first) + middle) / rate_hz,
                  .hop_s = static_cast<double>(hop) / rate_hz,
                  .values = {},
                  .correlated_values = correlation_sum(request.values_per_window)};
    band.values.reserve((span.size() - length) / hop + 1);
    // The reference turns on from value to value; whole turns are dropped before they are rounded. The
    // recurrence adds 1e-16 for each value, a thousand at most.
    const double turns = request.reference_hz / rate_hz * static_cast<double>(hop);
    const auto back = std::polar(1.0, -2.0 * std::numbers::pi * (turns - std::floor(turns)));
    std::complex<double> rotation{1.0, 0.0};
    for (std::size_t start = 0; start + length <= span.size(); start += hop, rotation *= back)
        band.values.push_back(weighted_sum(kernel, span.data() + start) * rotation);
    return band;
}

} // namespace harpkeep
