// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// How long a string rings in one position, against its other positions and against the nearest strings.
struct RingContrast {
    StringPlace place;
    Position position = Position::flat;
    double share = 1.0;       ///< ring as a share of what is to be expected
    double lower_share = 0.0; ///< 95 % interval
    double upper_share = 0.0;
    double deviations = 0.0; ///< logarithm of the share in robust standard deviations of this harp's
    int rests_on = 0;        ///< readings of the string
};

/// For each string the position in which it rings shortest for its kind.
///
/// Given      readings of a check; those with clipped, noisy or disturbed sound are left out
/// Returns    nothing for strings sounded in one position, or with too few neighbours (eight) to compare
/// Notes      Decay times of the same partials are compared, in logarithm, with those of the string's other
///            positions; the median of the twelve nearest strings is taken out, as shorter strings ring
///            shorter. One position can then stand out, not the string as a whole.
[[nodiscard]] std::vector<RingContrast> ring_contrasts(std::span<const Reading> readings);

} // namespace harpkeep
