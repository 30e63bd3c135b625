// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

namespace harpkeep {

/// An interval by the partials that come together in it: the major third is 5 : 4, partial 5 of the lower
/// string against partial 4 of the upper.
struct NearCoincidence {
    int lower_partial = 1;
    int upper_partial = 1;
};

/// How often a second the two partials beat.
///
/// Given      frequencies of both strings before stiffness (F of n F sqrt(1 + B n^2)), B of both
/// Returns    |q F_high sqrt(1 + B_high q^2) - p F_low sqrt(1 + B_low p^2)|
/// Accuracy   the fifty cells of a published table to their last digit (tests/src/harp/temperament_test.cpp)
[[nodiscard]] Hertz beat_rate(Hertz lower, Hertz upper, NearCoincidence partials,
                              double lower_inharmonicity = 0.0, double upper_inharmonicity = 0.0);

} // namespace harpkeep
