// SPDX-License-Identifier: MIT
#include "live/pitch_follower.hpp"

#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>
#include <vector>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 48000.0;
constexpr double inharmonicity = 1e-4;

double partial_hz(double first_hz, int k)
{
    return k * first_hz * std::sqrt((1.0 + inharmonicity * k * k) / (1.0 + inharmonicity));
}

/// A tone of four partials, each 6 dB under the one before, whose pitch follows `cents` of the time.
std::vector<float> tone(double first_hz, double seconds, const std::function<double(double)>& cents,
                        double noise_db)
{
    std::mt19937 random{3};
    std::normal_distribution<double> noise{0.0, 0.2 * std::pow(10.0, noise_db / 20.0)};
    std::vector<float> samples(static_cast<std::size_t>(seconds * rate_hz));
    std::vector<double> phases(5);
    for (std::size_t n = 0; n < samples.size(); ++n) {
        const double ratio = std::exp2(cents(static_cast<double>(n) / rate_hz) / 1200.0);
        double sum = noise(random);
        for (int k = 1; k <= 4; ++k) {
            double& phase = phases[static_cast<std::size_t>(k)];
            sum += 0.2 * std::exp2(1 - k) * std::sin(phase + k);
            phase += 2.0 * std::numbers::pi * partial_hz(first_hz, k) * ratio / rate_hz;
        }
        samples[n] = static_cast<float>(sum);
    }
    return samples;
}

PluckMeasurement measurement_of(double first_hz)
{
    PluckMeasurement measurement;
    measurement.frequency_hz = first_hz;
    measurement.inharmonicity = inharmonicity;
    for (int k = 1; k <= 4; ++k)
        measurement.partials.push_back(
            {.number = k, .frequency_hz = partial_hz(first_hz, k), .level_db = -6.0 * k});
    return measurement;
}

std::vector<FollowedPitch> followed(const std::vector<float>& samples, double first_hz)
{
    PitchFollower follower{Hertz{rate_hz}};
    follower.follow(measurement_of(first_hz));
    std::vector<FollowedPitch> pitches;
    for (std::size_t at = 0; at + 480 <= samples.size(); at += 480)
        if (const auto pitch = follower.push(std::span{samples}.subspan(at, 480), at))
            pitches.push_back(*pitch);
    return pitches;
}

} // namespace

TEST_CASE("pitch follower: a steady tone is read to a fraction of a cent, within what it says", "[live]")
{
    const double first_hz = GENERATE(41.2, 440.0, 2093.0);
    const double offset_cents = GENERATE(0.0, -7.3);
    const auto pitches = followed(tone(
                                      first_hz, 3.0, [&](double) { return offset_cents; }, -40.0),
                                  first_hz);
    REQUIRE(pitches.size() > 40);
    double squares = 0.0;
    double said = 0.0;
    for (const FollowedPitch& pitch : pitches) {
        squares += std::pow(interval(Hertz{first_hz}, pitch.frequency).value() - offset_cents, 2);
        said += std::pow(pitch.uncertainty.value(), 2);
    }
    const double error = std::sqrt(squares / static_cast<double>(pitches.size()));
    CAPTURE(first_hz, error, std::sqrt(said / static_cast<double>(pitches.size())));
    CHECK(error < (first_hz > 100.0 ? 0.01 : 0.05)); // the figures of the header
    // Stretches overlap, so that their errors are fewer than their number: a factor of two.
    CHECK(error < 2.0 * std::sqrt(said / static_cast<double>(pitches.size())));
}

TEST_CASE("pitch follower: follows a pin that is turned, a sixth of a second behind", "[live]")
{
    const double speed = GENERATE(-100.0, 20.0, 100.0); // cents a second
    const auto pitches = followed(tone(
                                      440.0, 3.0, [&](double t) { return speed * t; }, -40.0),
                                  440.0);
    REQUIRE(pitches.size() > 40);
    for (const FollowedPitch& pitch : pitches) {
        const double truth = speed * pitch.time.value();
        // curvature of the sweep within the stretch
        CHECK(interval(Hertz{440.0}, pitch.frequency).value() == Approx(truth).margin(0.5));
    }
}

TEST_CASE("pitch follower: says nothing when the string has died away", "[live]")
{
    auto samples = tone(
        440.0, 1.0, [](double) { return 0.0; }, -40.0);
    std::mt19937 random{5};
    std::normal_distribution<double> noise{0.0, 0.01};
    samples.resize(3 * 48000);
    for (std::size_t n = 48000; n < samples.size(); ++n) samples[n] = static_cast<float>(noise(random));
    const auto pitches = followed(samples, 440.0);
    REQUIRE_FALSE(pitches.empty());
    // Noise alone stands out by 10 dB once in a while: four partials, forty looks.
    const auto late = std::count_if(pitches.begin(), pitches.end(),
                                    [](const FollowedPitch& pitch) { return pitch.time.value() > 1.5; });
    CHECK(late <= 6);
}

TEST_CASE("pitch follower: a hole in the stream is not measured across", "[live]")
{
    const auto samples = tone(
        440.0, 2.0, [](double) { return 0.0; }, -40.0);
    PitchFollower follower{Hertz{rate_hz}};
    follower.follow(measurement_of(440.0));
    std::size_t lost = 0;
    for (std::size_t at = 0; at + 480 <= samples.size(); at += 480) {
        if (at == 48000) lost = 777;
        if (at >= 48000 && at < 48960) continue; // what is missing, not a whole number of periods
        const auto pitch = follower.push(std::span{samples}.subspan(at, 480), at + lost);
        if (pitch) CHECK(interval(Hertz{440.0}, pitch->frequency).value() == Approx(0.0).margin(0.3));
    }
}

TEST_CASE("pitch follower: of digital silence it says nothing", "[live][regression]")
{
    auto samples = tone(
        440.0, 1.0, [](double) { return 0.0; }, -60.0);
    samples.resize(samples.size() + 48000, 0.0F); // as from a microphone that was switched off
    const auto pitches = followed(samples, 440.0);
    REQUIRE(pitches.size() > 5);
    for (const auto& pitch : pitches) {
        CHECK(pitch.uncertainty.value() > 0.0);
        CHECK(std::isfinite(pitch.frequency.value()));
        CHECK(pitch.time.value() < 1.2); // 0.25 s of samples are looked at together
    }
}
