// SPDX-License-Identifier: MIT
#include "signal/baseband.hpp"
#include "tests/src/signal/synthetic_band.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 4000.0;

SampleHistory history_of(double frequency_hz, double amplitude, double decay_rate, double phase_rad,
                         double length_s)
{
    const auto length = static_cast<std::size_t>(length_s * rate_hz);
    std::vector<float> samples(length);
    for (std::size_t n = 0; n < length; ++n) {
        const double t = static_cast<double>(n) / rate_hz;
        samples[n] = static_cast<float>(
            amplitude * std::exp(-decay_rate * t) *
            std::cos(2.0 * std::numbers::pi * std::fmod(frequency_hz * t, 1.0) + phase_rad));
    }
    SampleHistory history(length);
    tests::append_to(history, samples);
    return history;
}

} // namespace

TEST_CASE("extract_baseband: modulus and phase of a lone tone are right to 1e-6", "[property]")
{
    const auto history = history_of(441.3, 0.5, 0.0, 0.4, 2.0);
    const auto band =
        extract_baseband(history, rate_hz, {.reference_hz = 441.3, .to_s = 2.0, .window_s = 0.1});
    REQUIRE(band);
    for (std::size_t i = 0; i < band->values.size(); ++i) {
        CHECK(std::abs(std::abs(band->values[i]) - 0.5) < 1e-6); // what is promised
        // Phase 0 at the middle of the first window.
        const double phase = 2.0 * std::numbers::pi * 441.3 * band->first_s + 0.4;
        CHECK(std::abs(std::arg(band->values[i] * std::polar(1.0, -phase))) <
              2e-6); // 1e-6 of a modulus of 0.5
    }
}

TEST_CASE("extract_baseband: a damped tone off the reference stays one damped exponential", "[property]")
{
    const auto history = history_of(300.5, 0.5, 3.0, 0.0, 2.0);
    const auto band =
        extract_baseband(history, rate_hz, {.reference_hz = 300.0, .to_s = 2.0, .window_s = 0.08});
    REQUIRE(band);
    const auto expected =
        std::exp(-3.0 * band->hop_s) * std::polar(1.0, 2.0 * std::numbers::pi * 0.5 * band->hop_s);
    for (std::size_t i = 0; i + 1 < band->values.size(); ++i)
        CHECK(std::abs(band->values[i + 1] / band->values[i] - expected) <
              1e-4); // 1e-6 over the smallest, e^-6
}

TEST_CASE("extract_baseband: a tone four bins away is suppressed by 92 dB", "[property]")
{
    const auto history = history_of(540.0, 1.0, 0.0, 0.0, 2.0);
    const auto band =
        extract_baseband(history, rate_hz, {.reference_hz = 500.0, .to_s = 2.0, .window_s = 0.1});
    REQUIRE(band);
    for (const auto& value : band->values) CHECK(std::abs(value) < 2.6e-5); // -91.7 dB: side lobes, rounding
}

TEST_CASE("extract_baseband: no window reaches outside of the span", "[property]")
{
    auto samples = std::vector<float>(8000, 1.0F); // loud outside, silent inside
    for (std::size_t n = 2000; n < 6000; ++n) samples[n] = 0.0F;
    SampleHistory history(samples.size());
    tests::append_to(history, samples);
    const auto band = extract_baseband(history, rate_hz,
                                       {.reference_hz = 100.0, .from_s = 0.5, .to_s = 1.5, .window_s = 0.1});
    REQUIRE(band);
    for (const auto& value : band->values) CHECK(value == std::complex<double>{});
    CHECK_FALSE(extract_baseband(history, rate_hz,
                                 {.reference_hz = 100.0, .from_s = 0.5, .to_s = 0.69, .window_s = 0.1}));
}
