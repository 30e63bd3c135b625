// SPDX-License-Identifier: MIT
#pragma once

#include "harp/expected_pitch.hpp"
#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"
#include "tests/support/planted_harp.hpp"

#include <cmath>
#include <cstdint>
#include <vector>

namespace harpkeep::test {

// Readings of an invented harp as plucks would have given them: decay and partials of a stiff string.

inline constexpr double stiffness = 2e-4;

inline PluckMeasurement pluck_of(double frequency_hz, double decay_s, double start_s, Dice& dice)
{
    PluckMeasurement pluck{.start_s = start_s,
                           .frequency_hz = frequency_hz,
                           .uncertainty_cents = 0.2,
                           .degrees_of_freedom = 8.0,
                           .inharmonicity = stiffness,
                           .decay_s = decay_s,
                           .snr_db = 40.0};
    for (int n = 1; n <= 6; ++n) {
        const double series = n * frequency_hz * std::sqrt((1.0 + stiffness * n * n) / (1.0 + stiffness));
        pluck.partials.push_back({.number = n,
                                  .frequency_hz = series * std::exp2(0.2 * dice.normal() / 1200.0),
                                  .uncertainty_cents = 0.2,
                                  .level_db = -20.0 - 3.0 * n,
                                  .decay_s = decay_s / n * std::exp(0.1 * dice.normal())});
    }
    return pluck;
}

struct Sounded {
    HarpLayout layout;
    std::vector<Reading> readings;
};

/// Each string flat, natural, sharp and flat again; every reading can be changed.
inline Sounded sound_harp(std::uint64_t seed, auto change)
{
    Sounded harp{make_layout({}).value(), {}};
    Dice dice(seed);
    double now_s = 0.0;
    for (const auto& string : harp.layout.strings) {
        int turn = 0;
        for (const Position position : {Position::flat, Position::natural, Position::sharp, Position::flat}) {
            if (position != Position::flat && !string.has_natural_disc) continue;
            const double pitch_hz =
                expected_pitch(string, position, 440.0_Hz).value() * std::exp2(0.2 * dice.normal() / 1200.0);
            const double decay_s = 3.0 * std::exp2(-string.place.diatonic_index() / 20.0) *
                                   std::exp2(-semitones_above_open(position) / 12.0);
            Reading reading{string.place, position, 0, pluck_of(pitch_hz, decay_s, now_s, dice)};
            change(reading, turn++);
            harp.readings.push_back(reading);
            now_s += 2.0;
        }
    }
    return harp;
}

/// Changes a reading's pitch.
inline void raise(Reading& reading, double cents)
{
    const double ratio = std::exp2(cents / 1200.0);
    reading.pluck.frequency_hz *= ratio;
    for (auto& partial : reading.pluck.partials) partial.frequency_hz *= ratio;
}

} // namespace harpkeep::test
