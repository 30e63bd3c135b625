// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_risk.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// A day, or several in a row, that the strings should get through.
struct Occasion {
    double days_until = 0.0; ///< from today to its first day, >= 0
    double days_long = 1.0;
};

/// When a string goes on the list. The levels are the project's own choice.
struct ReplacementSettings {
    double least_chance = 0.10;   ///< of breaking by the end of the occasion, if left on
    double least_relief = 0.3333; ///< part of that chance which a new string takes away
    double settling_days = 14.0;  ///< "about two weeks" (common practice)
    double confidence = 0.95;
};

/// Why a string is or is not on the list.
enum class ReplacementAdvice {
    replace, ///< likely to break, and a new one is clearly safer
    no_help, ///< likely to break, yet a new one would be hardly safer: carry spares instead
    leave,   ///< unlikely to break
};

struct ReplacementLine {
    BreakRisk risk; ///< until the end of the occasion; `chance_if_new` is the new string's over the same time
    double relief = 0.0; ///< chance.value - chance_if_new.value
    ReplacementAdvice advice = ReplacementAdvice::leave;
};

/// What to put on before an occasion.
struct ReplacementPlan {
    Occasion occasion;
    std::vector<ReplacementLine> lines; ///< highest chance first; all strings asked about
    stats::Estimate any_break_as_is;
    stats::Estimate any_break_after; ///< with all that are to be replaced put on today
    /// New strings put on today would not have settled by then: better now than later, or not at all.
    bool settles_too_late = false;
    stats::LifeEvidence evidence;
};

/// Replacement list for a date by the risk of breaking until then.
///
/// Notes  A new string helps only where strings wear out: with a shape of 1 it is as likely to break as an
/// old
///        one, and the plan says so by `no_help`.
[[nodiscard]] ReplacementPlan plan_replacements(const LifeModel& model, std::span<const StringInUse> strings,
                                                const Occasion& occasion,
                                                const ReplacementSettings& settings = {});

} // namespace harpkeep
