// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"
#include "reason/tolerance.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// Judgement of one step, or of flat to sharp when `step` is nothing.
struct StepVerdict {
    StringPlace place;
    std::optional<Step> step;
    Measured error;          ///< cents from 100 or 200
    ToleranceBand tolerance; ///< cents
    Conformity conformity = Conformity::not_proven;
    bool watch = false;              ///< not out, yet beyond the watch band as measured
    double probability_within = 0.0; ///< that the true error lies in the tolerance
    /// About how many times as many plucks would decide; 1 when decided, nothing when the error lies so near
    /// the limit that no sensible number would.
    std::optional<int> plucks_factor = 1;
};

/// The error of a step as a measured value; degrees of freedom of 0 are unknown ones and taken as many.
[[nodiscard]] Measured measured_from(const StepError& step);

/// More than this many times the plucks are no advice to give (own choice).
inline constexpr int most_plucks_factor = 9;

/// Judges one error.
[[nodiscard]] StepVerdict judge(StringPlace place, std::optional<Step> step, const Measured& error,
                                const ToleranceSettings& settings);

/// Judges every step of a check, then flat to sharp of every string that has it, each worst first.
///
/// Notes  Steps are judged against 100 cents whatever temperament the open strings are in.
[[nodiscard]] std::vector<StepVerdict> judge_steps(std::span<const StepError> steps,
                                                   std::span<const WholeStepError> whole_steps,
                                                   const ToleranceSettings& settings);

/// How far an error has used up its tolerance: 0 in the middle of the band, 1 on its limit.
[[nodiscard]] double tolerance_used(double error_cents, const ToleranceBand& band);

/// What to sound again.
struct PluckAgain {
    StringPlace place;
    std::vector<Position> positions;
    bool missing = false;  ///< never measured in this check; else measured, but not proven
    int plucks_factor = 1; ///< about how many times as many plucks as before
};

/// The strings whose judgement would gain from more plucks, and those not measured, from the lowest on.
[[nodiscard]] std::vector<PluckAgain> pluck_again(const HarpLayout& layout,
                                                  std::span<const StepVerdict> verdicts);

} // namespace harpkeep
