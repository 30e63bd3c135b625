// SPDX-License-Identifier: MIT
#pragma once

#include "reason/drift.hpp"

namespace harpkeep {

/// Sets the parameters that all steps share to the most probable ones, given the noise factors as they are.
///
/// Notes  Penalised marginal likelihood, one parameter after the other by Brent's method on its logarithm;
/// the
///        mean trends follow in closed form.
void improve_drift_parameters(DriftFit& fit);

/// Fills `fit.plausible`: draws from the normal approximation to the posterior of the logarithms at the most
/// probable parameters, the mean trends from theirs.
void draw_plausible_parameters(DriftFit& fit);

} // namespace harpkeep
