// SPDX-License-Identifier: MIT
#include "tests/support/resample_by_ratio.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep::tests {

namespace {

constexpr double attenuation_db = 130.0;
constexpr int zero_crossings = 128; // to each side
constexpr int steps = 512;          // of the table between two of them

/// sinc(cutoff t) cutoff under a Kaiser window that ends at t = +-zero_crossings, tabulated; t counts samples
/// of the lower of the two rates.
class Kernel {
  public:
    Kernel()
    {
        const double beta = 0.1102 * (attenuation_db - 8.7);
        // The transition ends at the band edge: its half width below 1 lies the -6 dB point.
        const double width = (attenuation_db - 8.0) / (2.285 * 2.0 * zero_crossings) / std::numbers::pi;
        const double cutoff = 1.0 - 0.5 * width;
        for (int i = -1; i <= zero_crossings * steps + 2; ++i) {
            const double t = static_cast<double>(i) / steps;
            const double share = t / zero_crossings;
            const double window = std::abs(share) >= 1.0
                                      ? 0.0
                                      : std::cyl_bessel_i(0.0, beta * std::sqrt(1.0 - share * share)) /
                                            std::cyl_bessel_i(0.0, beta);
            const double x = std::numbers::pi * cutoff * t;
            table_.push_back(window * cutoff * (i == 0 ? 1.0 : std::sin(x) / x));
        }
    }

    /// Cubic interpolation after Lagrange: the error is 3/128 (pi / steps)^4 = 3e-11 at most.
    [[nodiscard]] double operator()(double t) const
    {
        const double place = std::abs(t) * steps;
        const auto i = static_cast<std::size_t>(place);
        if (i >= static_cast<std::size_t>(zero_crossings) * steps) return 0.0;
        const double u = place - static_cast<double>(i);
        const double* p = &table_[i]; // p[1] lies at i, as the table starts at -1
        const double c1 = p[2] - p[0] / 3.0 - p[1] / 2.0 - p[3] / 6.0;
        const double c2 = 0.5 * (p[0] + p[2]) - p[1];
        const double c3 = (p[3] - p[0]) / 6.0 + 0.5 * (p[1] - p[2]);
        return p[1] + u * (c1 + u * (c2 + u * c3));
    }

  private:
    std::vector<double> table_;
};

} // namespace

std::vector<double> resample_by_ratio(std::span<const double> samples, double ratio)
{
    HARPKEEP_EXPECTS(ratio >= 0.5 && ratio <= 2.0);
    static const Kernel kernel;
    const double scale = std::min(1.0, 1.0 / ratio); // of the band that both rates hold
    const double reach = zero_crossings / scale;
    const auto last = static_cast<double>(samples.size()) - 1.0;
    std::vector<double> result;
    for (std::size_t m = 0; static_cast<double>(m) * ratio <= last; ++m) {
        const double at = static_cast<double>(m) * ratio;
        const double from = std::max(0.0, std::ceil(at - reach));
        const double to = std::min(last, std::floor(at + reach));
        double sum = 0.0;
        for (double n = from; n <= to; n += 1.0)
            sum += samples[static_cast<std::size_t>(n)] * kernel((at - n) * scale);
        result.push_back(sum * scale);
    }
    return result;
}

} // namespace harpkeep::tests
