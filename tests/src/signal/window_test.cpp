// SPDX-License-Identifier: MIT
#include "signal/window.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

using namespace harpkeep;

namespace {

/// Level of a window's spectrum at `bins` of 1 / length, against its middle.
double level_db(const std::vector<double>& window, double bins)
{
    std::complex<double> sum{};
    double whole = 0.0;
    for (std::size_t i = 0; i < window.size(); ++i) {
        sum += window[i] * std::polar(1.0, -2.0 * std::numbers::pi * bins * static_cast<double>(i) /
                                               static_cast<double>(window.size()));
        whole += window[i];
    }
    return 20.0 * std::log10(std::abs(sum) / whole);
}

/// Sum of squares over the square of the sum, in bins.
double noise_bandwidth_bins(const std::vector<double>& window)
{
    double sum = 0.0, square = 0.0;
    for (const double w : window) sum += w, square += w * w;
    return static_cast<double>(window.size()) * square / (sum * sum);
}

} // namespace

TEST_CASE("blackman_harris_window: side lobes and bandwidth are those that Harris tabulates", "[reference]")
{
    // F. J. Harris, Proc. IEEE 66 (1978), table 1, minimum 4-term: highest side lobe -92 dB, equivalent noise
    // bandwidth 2.00 bins (from memory).
    const auto window = blackman_harris_window(1024);
    double highest = -200.0;
    for (double bins = 4.0; bins < 60.0; bins += 0.05) highest = std::max(highest, level_db(window, bins));
    CHECK(highest < -91.9); // the table rounds to whole decibels
    CHECK(highest > -92.6);
    CHECK(std::abs(noise_bandwidth_bins(window) - 2.00) < 0.006); // the table's last digit
}

TEST_CASE("hann_window: bandwidth and first side lobe are those that Harris tabulates", "[reference]")
{
    // Ibid., Hann (cos^2): highest side lobe -32 dB (31.5), bandwidth 1.50 bins (from memory).
    const auto window = hann_window(1024);
    double highest = -200.0;
    for (double bins = 2.0; bins < 20.0; bins += 0.02) highest = std::max(highest, level_db(window, bins));
    CHECK(std::abs(highest + 31.5) < 0.1); // tabulated as -32: -31.47 before rounding
    CHECK(std::abs(noise_bandwidth_bins(window) - 1.50) < 0.006);
    CHECK(window.front() > 0.0);
}

TEST_CASE("kaiser_window: beta 0 is flat, and greater beta falls off to the ends", "[property]")
{
    for (const double w : kaiser_window(33, 0.0)) CHECK(std::abs(w - 1.0) < 1e-12); // I0(0) / I0(0)
    const auto window = kaiser_window(33, 10.0);
    CHECK(std::abs(window[16] - 1.0) < 1e-12);
    CHECK(std::abs(window[0] * std::cyl_bessel_i(0.0, 10.0) - 1.0) < 1e-12); // 1 / I0(beta) at the ends
    CHECK(std::is_sorted(window.begin(), window.begin() + 17));
}
