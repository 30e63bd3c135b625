// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"

namespace harpkeep {

/// Semitones above C-1 (the key number of the MIDI Tuning Standard: A4 = 69) of a place with an accidental.
/// The letter owns the octave: C flat 4 is 59, the key of B3.
[[nodiscard]] constexpr int key_number(StringPlace place, int alteration)
{
    return 12 * (place.scientific_octave + 1) + semitones_above_c(place.letter) + alteration;
}

/// Frequency of a key in equal temperament.
///
/// Given      a4  reference pitch; ISO 16:1975 sets 440 Hz
/// Returns    a4 * 2^((key - 69) / 12)
/// Accuracy   the rounded tables of the CRC Handbook and of Michigan Tech to their last digit
///            (tests/src/harp/expected_pitch_test.cpp)
/// Reference  ISO 16:1975; MIDI Tuning Standard (from memory)
[[nodiscard]] Hertz equal_temperament(double key, Hertz a4);

/// The pitch a string should sound in a position, in equal temperament.
[[nodiscard]] Hertz expected_pitch(const HarpString& string, Position position, Hertz a4);

} // namespace harpkeep
