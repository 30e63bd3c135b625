// SPDX-License-Identifier: MIT
#include "measure/pluck_likeness.hpp"
#include "synth/random_source.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

constexpr double decay_s = 0.5;

/// So many partials whose levels are off by `apart_db` up and down in turn.
PluckMeasurement pluck_of(int partials, double apart_db, double noise_cents = 0.0)
{
    PluckMeasurement pluck{.frequency_hz = 261.6, .decay_s = decay_s};
    for (int k = 1; k <= partials; ++k)
        pluck.partials.push_back({.number = k,
                                  .frequency_hz = 261.6 * k,
                                  .noise_cents = noise_cents,
                                  .level_db = -6.0 * k + (k % 2 ? apart_db : -apart_db),
                                  .decay_s = decay_s});
    return pluck;
}

} // namespace

TEST_CASE("levels_unlikeness: a pluck is like itself, and unlike one at another point of the string",
          "[property]")
{
    const auto pluck = pluck_of(8, 0.0);
    CHECK(levels_unlikeness(pluck, pluck) == 0.0);
    CHECK(levels_unlikeness(pluck, pluck_of(8, 0.3)) < 0.1); // what resampling does to levels
    CHECK(levels_unlikeness(pluck, pluck_of(8, 1.0)) > 0.8); // the least that other plucks differ by
    CHECK(levels_unlikeness(pluck, pluck_of(8, 3.0)) > 0.99);
    CHECK(levels_unlikeness(pluck, pluck_of(8, 1.0)) == levels_unlikeness(pluck_of(8, 1.0), pluck));
}

TEST_CASE("levels_unlikeness: two levels are too few to call plucks alike", "[property]")
{
    CHECK(levels_unlikeness(pluck_of(2, 0.0), pluck_of(2, 0.0)) > 0.1);
    CHECK(levels_unlikeness(pluck_of(3, 0.0), pluck_of(3, 0.0)) == 0.0);
    CHECK(levels_unlikeness(pluck_of(2, 0.0), pluck_of(2, 3.0)) > 0.9);
}

TEST_CASE("levels_unlikeness: noise in the levels and a start a little later do not count", "[property]")
{
    // 1 rad of phase noise over the decay is 8.7 dB of level noise: 2 dB of it, drawn.
    const double noise_cents = 2.0 / 8.69 / (2.0 * std::numbers::pi * 261.6 * decay_s) * 1731.23;
    RandomSource random(3);
    int unlike = 0;
    constexpr int runs = 200;
    for (int i = 0; i < runs; ++i) {
        auto a = pluck_of(12, 0.0, noise_cents), b = pluck_of(12, 0.0, noise_cents);
        for (auto* pluck : {&a, &b})
            for (auto& partial : pluck->partials) {
                // In cents the noise of partial k is k times smaller for the same level noise.
                partial.noise_cents /= partial.number;
                partial.level_db += 2.0 * random.normal();
            }
        unlike += levels_unlikeness(a, b) > 0.5;
    }
    CHECK(unlike < runs / 2); // the excess of chi-square over its mean is above zero in half of the runs

    const auto first = pluck_of(8, 0.0);
    auto later = first;
    for (auto& partial : later.partials) // 1.5 ms of a fall by 8.7 dB in a decay that gets shorter upwards
        partial.decay_s = decay_s / partial.number;
    auto same = later;
    for (auto& partial : later.partials) partial.level_db -= 8.69 * 0.0015 / partial.decay_s;
    CHECK(levels_unlikeness(same, later) < 1e-6); // a shift fits exactly
}

TEST_CASE("levels_unlikeness: partials that are gone within the window say little", "[property]")
{
    auto a = pluck_of(8, 0.0), b = pluck_of(8, 0.0);
    for (std::size_t i = 4; i < 8; ++i) {
        a.partials[i].decay_s = b.partials[i].decay_s = 0.02; // the window is 0.05 s
        b.partials[i].level_db += i % 2 ? 4.0 : -4.0;
    }
    CHECK(levels_unlikeness(a, b) < 0.01);
}
