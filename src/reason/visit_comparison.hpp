// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "reason/step_verdict.hpp"

#include <span>
#include <vector>

namespace harpkeep {

enum class VisitChange {
    improved, ///< nearer to 100 cents, beyond what measuring could feign
    worse,    ///< farther from it
    unproven, ///< neither is shown
};

/// One step before and after a visit.
struct StepChange {
    StringPlace place;
    Step step = Step::lower;
    StepVerdict before;
    StepVerdict after;
    double moved_cents = 0.0; ///< after less before
    double moved_uncertainty_cents = 0.0;
    double nearer_cents = 0.0; ///< how much nearer to 100 cents; negative: farther
    double probability_nearer = 0.5;
    VisitChange change = VisitChange::unproven;
};

struct VisitComparison {
    std::vector<StepChange> steps; ///< most improved first, most worsened last
    int improved = 0;
    int worse = 0;
    int unproven = 0;
    int out_before = 0, out_after = 0;       ///< proven out of tolerance
    int within_before = 0, within_after = 0; ///< proven within
    double typical_before_cents = 0.0;       ///< root mean square error
    double typical_after_cents = 0.0;
    int only_before = 0; ///< steps measured in one of the two checks only
    int only_after = 0;
};

struct VisitComparisonSettings {
    /// Scatter from one check to the next that the stated uncertainty does not hold; own choice until the
    /// harp's own history tells (DriftParameters::check_scatter_cents).
    double check_scatter_cents = 0.3;
    double false_share = 0.05; ///< share of the improved and worse that may be chance
};

/// Compares the last check before a visit with the first after it.
///
/// Notes      Improved and worse are the steps whose chance of the opposite is so small that, over the whole
///            harp, at most `false_share` of them are expected to be wrong.
[[nodiscard]] VisitComparison compare_visit(std::span<const StepError> before,
                                            std::span<const StepError> after,
                                            const ToleranceSettings& tolerances,
                                            const VisitComparisonSettings& settings = {});

/// Probability that of two independent normal values `a` is the smaller in size.
///
/// Accuracy   quadrature to 1e-9
[[nodiscard]] double probability_smaller_in_size(const Measured& a, const Measured& b);

} // namespace harpkeep
