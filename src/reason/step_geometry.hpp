// SPDX-License-Identifier: MIT
#pragma once

#include "harp/position.hpp"
#include "units/quantity.hpp"

namespace harpkeep {

/// Length that sounds in a position, from that of the open string, by pure shortening at constant tension.
///
/// Returns    open length / 2^(semitones / 12)
/// Notes      Geometry alone: the pins of a disc also stretch the string (grip), so real distances are
/// smaller.
[[nodiscard]] Millimetres sounding_length(Millimetres open_length, Position position);

/// Change of sounding length that makes one cent, at constant tension.
///
/// Returns    length * ln 2 / 1200: 0.578 mm for each metre
/// Notes      Geometry alone, see sounding_length(). It shows how small these errors are; it is no
/// instruction.
[[nodiscard]] Millimetres length_for_one_cent(Millimetres sounding_length);

/// How far the pins of a disc push a string aside.
struct Grip {
    Millimetres push;                  ///< sideways
    Millimetres to_near_end;           ///< from the pins to the nut
    Millimetres to_far_end;            ///< from the pins to the soundboard
    Millimetres stretched_length;      ///< all of the string that takes part, from tuning pin to soundboard
    double modulus_over_stress = 40.0; ///< Young's modulus by stress, dimensionless
};

/// How much the stretching by the pins raises the pitch on top of the shortening.
///
/// Returns    1200 / (2 ln 2) * E / stress * dL / L, with dL = push^2 / 2 (1 / near + 1 / far)
/// Notes      Small in the bass, several cents in the top octaves; it grows as a string wears flat at the
/// pins.
[[nodiscard]] Cents pitch_raised_by_grip(const Grip& grip);

} // namespace harpkeep
