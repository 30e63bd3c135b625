// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <optional>
#include <span>

namespace harpkeep {

/// Size of the interval between two positions of one string.
struct StepSize {
    double size_cents = 0.0;
    double uncertainty_cents = 0.0;  ///< standard uncertainty (k = 1)
    double degrees_of_freedom = 0.0; ///< effective
    int shared_partials = 0;
};

/// Measures a step from the partials that both positions share.
///
/// Given    lower, upper  plucks of one string in two neighbouring positions
/// Returns  the interval of their first partials, or nothing when they share no partial
/// Notes    Each partial's deviation from the stiff series belongs to the string and falls out of the ratio;
/// what
///          stiffness adds rises with 1/L^2, expected, and fitted where the partials say so. A single fit of
///          F and B for each position would carry those deviations into the step. Partials weigh by their
///          noise and by the scatter they show among themselves (Student weights).
[[nodiscard]] std::optional<StepSize> measure_step(const PluckMeasurement& lower,
                                                   const PluckMeasurement& upper);

/// The same from repeated plucks: the mean over pairs, JCGM 100:2008 with effective degrees of freedom (G.4).
[[nodiscard]] std::optional<StepSize> measure_step(std::span<const PluckMeasurement> lower,
                                                   std::span<const PluckMeasurement> upper);

} // namespace harpkeep
