// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep::stats {

/// The survival curve just after one age at which something failed.
struct SurvivalStep {
    double time = 0.0;
    int at_risk = 0; ///< watched just before: entry < time <= exit
    int failures = 0;
    double survival = 1.0;
    double greenwood_sum = 0.0; ///< sum of d / (n (n - d)) so far; infinite once survival is 0
};

/// A Kaplan-Meier curve: 1 before the first step, level between steps.
struct SurvivalCurve {
    std::vector<SurvivalStep> steps; ///< ascending in time
    LifeEvidence evidence;
    double last_exit = 0.0; ///< nothing is known beyond
    /// The first age at which the last one at risk failed although others came under watch later. With late
    /// entries a thin start can do this; the curve is 0 from there and tells nothing after it.
    std::optional<double> ran_empty_at;
};

/// Survival without assuming any shape, with right censoring and late entry.
///
/// Given      well-formed observations; ties: failures at an age come before withdrawals at it, and who
///            enters at an age is at risk just after it
/// Returns    the product over failure ages of 1 - failures / at risk; no steps when nothing failed
/// Accuracy   agrees with R survival 3.5 on random truncated data to 1e-12
///            (tests/src/stats/r_twin/survival_r_test.cpp)
/// Reference  E. L. Kaplan & P. Meier, J. Am. Stat. Assoc. 53, 457 (1958) (from memory); NIST/SEMATECH
///            e-Handbook 8.2.1.5
[[nodiscard]] SurvivalCurve kaplan_meier(std::span<const LifeObservation> lives);

/// Survival just after `time`; nothing beyond the last exit.
[[nodiscard]] std::optional<double> survival_at(const SurvivalCurve& curve, double time);

/// Greenwood's standard error of the survival after a step.
[[nodiscard]] double greenwood_error(const SurvivalStep& step);

/// On which scale an interval is taken as symmetric: survival itself, its log, or the log of minus its log.
enum class SurvivalScale { plain, log, log_log };

/// Limits of the survival after a step; nothing once it is 0, where no scale gives any.
[[nodiscard]] std::optional<ConfidenceLimits> survival_limits(const SurvivalStep& step,
                                                              SurvivalScale scale = SurvivalScale::log_log,
                                                              double confidence = 0.95);

/// The age by which a share of all has failed, with limits from those of the curve. Absent limits are
/// not reached by the data.
struct LifeQuantile {
    double time = 0.0;
    std::optional<double> lower;
    std::optional<double> upper;
    double confidence = 0.95;
};

/// Age at which survival falls to 1 - share (0.5 gives the median).
///
/// Returns    nothing when the curve does not fall that far; the middle of the level stretch when the curve
///            lies exactly on 1 - share
/// Reference  limits by inverting the curve's own: Brookmeyer & Crowley, Biometrics 38, 29 (1982) (from
/// memory)
[[nodiscard]] std::optional<LifeQuantile> life_quantile(const SurvivalCurve& curve, double share,
                                                        SurvivalScale scale = SurvivalScale::log_log,
                                                        double confidence = 0.95);

} // namespace harpkeep::stats
