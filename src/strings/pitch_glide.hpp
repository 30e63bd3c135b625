// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

namespace harpkeep {

/// How much higher a hard pluck sounds at its start than when it has died down.
struct PitchGlide {
    Cents own_partial;    ///< of a first partial of this amplitude itself
    Cents other_partials; ///< of the others, which see the mean tension only
};

/// Rise of pitch while a string swings widely and so is stretched.
///
/// Given      amplitude          of the first mode at its widest, in one plane
///            young_over_stress  E / sigma; tens to hundreds for gut and nylon
/// Returns    1731.2 (3 pi^2 / 32) (E/sigma) (a/L)^2 and 1731.2 (pi^2 / 16) (E/sigma) (a/L)^2 cents. It falls
///            as exp(-2 alpha t) when the amplitude falls as exp(-alpha t).
/// Notes      First order in (a/L)^2. A wide pluck of 1 % of the length glides by several cents: the settled
///            pitch is what a check must report.
/// Accuracy   against a step-by-step integration of the vibrating mode within 1e-3
///            (tests/src/strings/pitch_glide_test.cpp)
/// Reference  Legge & Fletcher 1984; Tolonen, Valimaki & Karjalainen 2000 (as cited in Jarvelainen &
/// Valimaki,
///            "Audibility of initial pitch glides in string instrument sounds")
[[nodiscard]] PitchGlide pitch_glide(Millimetres amplitude, Millimetres length, double young_over_stress);

} // namespace harpkeep
