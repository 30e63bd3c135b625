// SPDX-License-Identifier: MIT
#include "signal/spectrum_peaks.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 8000.0;

std::vector<float> cosines(std::initializer_list<std::pair<double, double>> tones, std::size_t length)
{
    std::vector<float> samples(length);
    for (std::size_t n = 0; n < length; ++n) {
        double value = 0.0;
        for (const auto& [frequency_hz, amplitude] : tones)
            value += amplitude *
                     std::cos(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(n) / rate_hz + 0.7);
        samples[n] = static_cast<float>(value);
    }
    return samples;
}

} // namespace

TEST_CASE("spectral_peaks: a lone tone is named within 0.002 of the resolution", "[property]")
{
    RealFft fft(8192);
    for (double frequency_hz = 300.0; frequency_hz < 304.0; frequency_hz += 0.37) {
        const auto spectrum = level_spectrum(cosines({{frequency_hz, 0.5}}, 2000), rate_hz, fft);
        const auto peaks = spectral_peaks(spectrum, 250.0, 350.0, 20.0);
        REQUIRE(!peaks.empty());
        const auto& peak = *std::max_element(
            peaks.begin(), peaks.end(), [](const auto& a, const auto& b) { return a.level_db < b.level_db; });
        CHECK(std::abs(peak.frequency_hz - frequency_hz) <
              0.002 * spectrum.resolution_hz); // what is promised
        CHECK(std::abs(peak.level_db - 20.0 * std::log10(0.5)) <
              0.01); // zero-padded fourfold: 0.01 dB of scallop
    }
}

TEST_CASE("spectral_peaks: gain moves levels, not frequencies", "[property]")
{
    RealFft fft(8192);
    const auto loud = spectral_peaks(
        level_spectrum(cosines({{440.0, 0.8}, {900.0, 0.1}}, 4000), rate_hz, fft), 100.0, 2000.0, 40.0);
    const auto soft = spectral_peaks(
        level_spectrum(cosines({{440.0, 0.08}, {900.0, 0.01}}, 4000), rate_hz, fft), 100.0, 2000.0, 40.0);
    REQUIRE(loud.size() == soft.size());
    for (std::size_t i = 0; i < loud.size(); ++i) {
        CHECK(std::abs(loud[i].frequency_hz - soft[i].frequency_hz) < 1e-3); // rounding of 32-bit samples
        CHECK(std::abs(loud[i].level_db - soft[i].level_db - 20.0) < 1e-2);  // the same
    }
}

TEST_CASE("level_near: finds the highest level in reach and silence elsewhere", "[property]")
{
    RealFft fft(8192);
    const auto spectrum = level_spectrum(cosines({{1000.0, 0.1}}, 4000), rate_hz, fft);
    CHECK(std::abs(level_near(spectrum, 1003.0, 5.0) + 20.0) < 0.05); // half a bin of 1 Hz off the top
    CHECK(level_near(spectrum, 3000.0, 5.0) < -100.0);
}
