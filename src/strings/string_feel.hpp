// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

namespace harpkeep {

/// How hard a string pushes back at the finger: force for each millimetre of sideways pull.
///
/// Given      pluck_fraction   where it is plucked, as part of the length, 0 < fraction < 1
///            inharmonicity    B of the string; 0 leaves its bending stiffness out
/// Returns    T / (a b / L - s sinh(a/s) sinh(b/s) / sinh(L/s)) with a, b the parts on either side of the
///            finger and s^2 = E I / T = B L^2 / pi^2. For B = 0 it is T L / (a b): 4 T / L in the middle.
/// Notes      Holds for a pull that is small against the length; a large one adds tension, so that the string
///            stiffens with the cube of the pull.
/// Accuracy   agrees with the sum over the modes of the same beam to 1e-6
///            (tests/src/strings/string_feel_test.cpp)
/// Reference  statics of a pinned beam under tension with a point load
[[nodiscard]] NewtonsPerMillimetre lateral_stiffness(Newtons tension, Millimetres length,
                                                     double pluck_fraction = 0.5, double inharmonicity = 0.0);

} // namespace harpkeep
