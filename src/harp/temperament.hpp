// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <array>
#include <span>
#include <string_view>

namespace harpkeep {

/// A way to tune the twelve pitch classes, given by its fifths: element i is the fifth upwards from the pitch
/// class of 7 i semitones above C, so C-G, G-D, D-A, A-E, E-B, B-F#, F#-C#, C#-G#, G#-Eb, Eb-Bb, Bb-F, F-C.
struct Temperament {
    std::string_view name;  ///< for commands: "young-1"
    std::string_view title; ///< for people: "Young, first"
    std::array<double, 12> fifths_cents{};
};

/// Equal temperament first, then the historical ones, each derived from the definition of its fifths.
///
/// Notes      Never from a printed table of cents: two pages of one source print two different ones of
/// Vallotti.
///            A harp's regulated steps are equal semitones; in another temperament a string is right in the
///            position it was tuned in and off by the difference of two semitones in the others.
/// Accuracy   the twelve fifths close to 8400 cents within 1e-9; Young's published thirds and Werckmeister's
///            published table to their last digit (tests/src/harp/temperament_test.cpp)
[[nodiscard]] std::span<const Temperament> all_temperaments();

[[nodiscard]] const Temperament* find_temperament(std::string_view name);

/// Cents above C of each pitch class, by semitones above C; the first is 0.
[[nodiscard]] std::array<double, 12> cents_above_c(const Temperament& temperament);

/// Deviation of each pitch class from equal temperament in cents, by semitones above C; A is 0.
[[nodiscard]] std::array<double, 12> deviations_cents(const Temperament& temperament);

/// Size of the major third upwards from a pitch class, 0 = C.
[[nodiscard]] Cents major_third(const Temperament& temperament, int semitones_above_c);

/// Frequency of a key (A4 = 69) in a temperament whose A4 is `a4`.
[[nodiscard]] Hertz tempered_pitch(int key, Hertz a4, const Temperament& temperament);

} // namespace harpkeep
