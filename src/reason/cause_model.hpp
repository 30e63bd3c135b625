// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"
#include "reason/cause.hpp"
#include "stats/sparse_effects.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// What a candidate effect of the statistical model stands for.
struct CauseTerm {
    CauseKind kind = CauseKind::string;
    std::optional<Letter> pedal;
    std::optional<StringPlace> place;
    std::optional<Step> step;
    int rests_on = 0;
};

/// The step errors of a check as observations and candidate effects.
struct CauseModel {
    std::vector<stats::ObservedValue> observations;
    std::vector<stats::SharedVariance> shared;
    std::vector<stats::CandidateEffect> candidates;
    std::vector<CauseTerm> terms; ///< one for each candidate
};

/// Builds the linear model of find_causes().
///
/// Given      step errors of strings of `layout`; others are left out
/// Notes      Places along the neck run from -1 at the lowest string that has a disc to +1 at the highest;
///            bend is the second Legendre polynomial. Whole steps are used where neither step was measured.
[[nodiscard]] CauseModel make_cause_model(const HarpLayout& layout, std::span<const StepError> steps,
                                          std::span<const WholeStepError> whole_steps);

} // namespace harpkeep
