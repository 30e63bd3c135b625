// SPDX-License-Identifier: MIT
#include "tests/support/resample_by_ratio.hpp"

#include "tests/support/tone.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace harpkeep::tests;

namespace {

constexpr double rate = 44100.0;
constexpr std::size_t edge = 300; // the kernel reaches 128 samples to each side, 150 at a ratio of 1.17

/// A decaying sinusoid at a time counted in samples.
double damped(double n, double frequency_hz)
{
    return std::exp(-n / 20000.0) * std::sin(2.0 * std::numbers::pi * frequency_hz / rate * n + 0.7);
}

std::vector<double> samples_of(double frequency_hz, std::size_t length)
{
    std::vector<double> samples;
    for (std::size_t n = 0; n < length; ++n) samples.push_back(damped(static_cast<double>(n), frequency_hz));
    return samples;
}

} // namespace

TEST_CASE("resample_by_ratio: agrees with the analytic sinusoid", "[support][reference]")
{
    const double cents = GENERATE(-112.0, -100.0, 3.0, 100.0, 212.0);
    const double frequency_hz = GENERATE(31.0, 440.0, 3000.0, 17000.0);
    CAPTURE(cents, frequency_hz);
    const double ratio = std::exp2(cents / 1200.0);
    const auto shifted = resample_by_ratio(samples_of(frequency_hz, 22050), ratio);
    REQUIRE(shifted.size() == static_cast<std::size_t>(22049.0 / ratio) + 1);
    double worst = 0.0;
    for (std::size_t m = edge; m + edge < shifted.size(); ++m)
        worst = std::max(worst, std::abs(shifted[m] - damped(static_cast<double>(m) * ratio, frequency_hz)));
    CHECK(worst < 1e-6); // -120 dB, as designed
}

TEST_CASE("resample_by_ratio: moves the pitch by exactly the ratio", "[support]")
{
    const double cents = GENERATE(-107.3, 98.25);
    const auto original = tone(440.0, rate, 3.0);
    const std::vector<double> samples(original.begin(), original.end());
    const auto shifted = resample_by_ratio(samples, std::exp2(cents / 1200.0));
    const double expected_hz = 440.0 * std::exp2(cents / 1200.0);
    CHECK(std::abs(cents_off(shifted, rate, expected_hz, 0.5, 1.0, 0.5)) < 1e-6); // 24-bit input, averaged
}

TEST_CASE("resample_by_ratio: what would lie above the band is gone, not folded back", "[support]")
{
    const auto shifted =
        resample_by_ratio(samples_of(20900.0, 22050), std::exp2(200.0 / 1200.0)); // to 23460 Hz
    double loudest = 0.0;
    for (std::size_t m = edge; m + edge < shifted.size(); ++m)
        loudest = std::max(loudest, std::abs(shifted[m]));
    CHECK(loudest < 1e-6); // -120 dB
}

TEST_CASE("resample_by_ratio: a ratio of 1 leaves everything below the band edge as it is",
          "[support][property]")
{
    const auto samples = samples_of(1000.0, 4096);
    const auto same = resample_by_ratio(samples, 1.0);
    REQUIRE(same.size() == samples.size());
    double worst = 0.0;
    for (std::size_t m = edge; m + edge < same.size(); ++m)
        worst = std::max(worst, std::abs(same[m] - samples[m]));
    CHECK(worst < 1e-6); // -120 dB
}
