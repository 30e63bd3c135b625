// SPDX-License-Identifier: MIT
#include "signal/baseband.hpp"

#include "base/expects.hpp"
#include "signal/window.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

constexpr std::size_t shortest_window = 16; // samples; under this the window has no shape

struct Kernel {
    std::vector<double> real, imaginary;
};

/// The window, normalised, times the rotation that turns reference_hz to 0 Hz, phase 0 at its middle.
Kernel make_kernel(const std::vector<double>& window, double radians_per_sample)
{
    double sum = 0.0;
    for (const double weight : window) sum += weight;
    Kernel kernel{std::vector<double>(window.size()), std::vector<double>(window.size())};
    const double middle = 0.5 * (static_cast<double>(window.size()) - 1.0);
    for (std::size_t i = 0; i < window.size(); ++i) {
        const double phase = radians_per_sample * (static_cast<double>(i) - middle);
        kernel.real[i] = 2.0 * window[i] / sum * std::cos(phase);
        kernel.imaginary[i] = -2.0 * window[i] / sum * std::sin(phase);
    }
    return kernel;
}

std::complex<double> weighted_sum(const Kernel& kernel, const float* samples)
{
    // Four partial sums, so that the compiler can keep the multiplications apart.
    double re[4] = {}, im[4] = {};
    const std::size_t size = kernel.real.size();
    std::size_t i = 0;
    for (; i + 4 <= size; i += 4)
        for (std::size_t lane = 0; lane < 4; ++lane) {
            const double x = samples[i + lane];
            re[lane] += kernel.real[i + lane] * x;
            im[lane] += kernel.imaginary[i + lane] * x;
        }
    for (; i < size; ++i) {
        re[0] += kernel.real[i] * static_cast<double>(samples[i]);
        im[0] += kernel.imaginary[i] * static_cast<double>(samples[i]);
    }
    return {(re[0] + re[1]) + (re[2] + re[3]), (im[0] + im[1]) + (im[2] + im[3])};
}

/// Sum of the correlation of window-filtered white noise over all lags of `hop`, in values.
double correlation_sum(const std::vector<double>& window, std::size_t hop)
{
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
    HARPKEEP_EXPECTS(request.window_s > 0.0 && request.values_per_window >= 4);

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

    const double radians_per_sample = 2.0 * std::numbers::pi * request.reference_hz / rate_hz;
    const auto window = blackman_harris_window(length);
    const Kernel kernel = make_kernel(window, radians_per_sample);
    const double middle = 0.5 * (static_cast<double>(length) - 1.0);

    Baseband band{.reference_hz = request.reference_hz,
                  .first_s = (static_cast<double>(first) + middle) / rate_hz,
                  .hop_s = static_cast<double>(hop) / rate_hz,
                  .values = {},
                  .correlated_values = correlation_sum(window, hop)};
    for (std::size_t start = 0; start + length <= span.size(); start += hop) {
        // Phase since the middle of the first window, reduced before it is rounded.
        const double turns = std::fmod(request.reference_hz / rate_hz * static_cast<double>(start), 1.0);
        band.values.push_back(weighted_sum(kernel, span.data() + start) *
                              std::polar(1.0, -2.0 * std::numbers::pi * turns));
    }
    return band;
}

} // namespace harpkeep
