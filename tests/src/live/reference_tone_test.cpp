// SPDX-License-Identifier: MIT
#include "live/reference_tone.hpp"

#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 48000.0;

/// Four seconds in noise of 0.001; `phase_turns` is how often the tone has turned at a time.
std::vector<float> tone(const std::function<double(double)>& phase_turns,
                        const std::vector<double>& partial_levels)
{
    std::mt19937 random{1};
    std::normal_distribution<double> noise{0.0, 0.001};
    std::vector<float> samples;
    for (int k = 0; k < 4 * 48000; ++k) {
        double sample = noise(random);
        for (std::size_t n = 0; n < partial_levels.size(); ++n)
            sample += partial_levels[n] * std::sin(2.0 * std::numbers::pi * static_cast<double>(n + 1) *
                                                   phase_turns(k / rate_hz));
        samples.push_back(static_cast<float>(sample));
    }
    return samples;
}

std::optional<SteadyTone> heard_in(const std::vector<float>& samples)
{
    ReferenceTone ear{Hertz{rate_hz}};
    for (std::size_t at = 0; at + 480 <= samples.size(); at += 480)
        if (const auto heard = ear.push(std::span{samples}.subspan(at, 480))) return heard;
    return std::nullopt;
}

} // namespace

TEST_CASE("reference tone: a fork is heard to a twentieth of a cent", "[live]")
{
    const double fork_hz = GENERATE(221.0, 415.0, 440.0, 442.3, 880.6);
    const auto heard = heard_in(tone([&](double s) { return fork_hz * s; }, {0.05}));
    REQUIRE(heard);
    CHECK(interval(Hertz{fork_hz}, heard->frequency).value() ==
          Approx(0.0).margin(0.05)); // what the header states
    CHECK(heard->uncertainty.value() < 0.2);
}

TEST_CASE("reference tone: an oboe, whose lowest partial is not the strongest, is heard by its lowest",
          "[live]")
{
    const auto heard = heard_in(
        tone([](double s) { return 441.5 * s; }, {0.01, 0.02, 0.04, 0.02, 0.01, 0.005, 0.003, 0.002}));
    REQUIRE(heard);
    CHECK(interval(Hertz{441.5}, heard->frequency).value() ==
          Approx(0.0).margin(0.05)); // what the header states
}

TEST_CASE("reference tone: noise and a wavering voice are no tone", "[live]")
{
    CHECK_FALSE(heard_in(tone([](double) { return 0.0; }, {})));
    // 30 cents up and down, five times a second
    const auto wavering = [](double s) {
        return 440.0 * s - 440.0 * 0.0175 / (2.0 * std::numbers::pi * 5.0) *
                               std::cos(2.0 * std::numbers::pi * 5.0 * s) * (1.0 + 0.3 * std::sin(7.0 * s));
    };
    CHECK_FALSE(heard_in(tone(wavering, {0.02, 0.02, 0.01})));
    // A voice that slides by a semitone in four seconds.
    CHECK_FALSE(heard_in(tone([](double s) { return 440.0 * s + 3.25 * s * s; }, {0.02, 0.02, 0.01})));
}
