// SPDX-License-Identifier: MIT
#pragma once

#include "live/pitch_filter.hpp"
#include "units/quantity.hpp"

namespace harpkeep {

/// How a pitch is drawn: as the string itself, stretched from the neck to the soundboard. In tune it is
/// straight; flat it bows to the left, sharp to the right. Why: docs/decisions/pitch-as-a-straight-string.md.
struct StraightString {
    double bow = 0.0;  ///< sideways reach of its middle, -1 (50 cents flat or more) to 1
    double blur = 0.0; ///< half width of the band that its uncertainty (k = 2) covers, in the same unit
    bool straight = false;
};

/// Sideways reach of a deviation.
///
/// Returns  asinh(cents / 2) / asinh(50 / 2), held to -1..1: even steps for the last cents, few for the first
///          fifty
[[nodiscard]] double string_bow(Cents deviation);

/// Shape of the string at `along` its length, 0 at the neck to 1 at the soundboard; 1 in the middle.
[[nodiscard]] double bow_shape(double along);

/// The picture of a pitch; straight when it lies within `tolerance` of its target.
[[nodiscard]] StraightString straight_string(const SteadyPitch& pitch, Cents tolerance);

} // namespace harpkeep
