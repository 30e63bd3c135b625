// SPDX-License-Identifier: MIT
#pragma once

#include "reason/cause_text.hpp"
#include "reason/drift_text.hpp"
#include "reason/enharmonics.hpp"
#include "reason/forecast.hpp"
#include "reason/harp_verdict.hpp"
#include "reason/string_condition.hpp"
#include "reason/tune_around.hpp"
#include "reason/usable_settings.hpp"
#include "reason/visit_comparison.hpp"
#include "ui/cli/output.hpp"
#include "units/date.hpp"

#include <string>
#include <vector>

namespace harpkeep::cli {

// What reason found as JSON for programs. Keys carry their units; uncertainties are standard (k = 1);
// intervals are 95 %; days are ISO 8601; what is not known is null. "text" is what people read.

[[nodiscard]] Json json_of(const StepVerdict& verdict);
[[nodiscard]] Json json_of(const PluckAgain& again);
[[nodiscard]] Json json_of(const ToleranceSettings& settings);
[[nodiscard]] Json json_of(const HarpVerdict& verdict, HarpKind kind);
[[nodiscard]] Json json_of(const CauseEffect& effect);
[[nodiscard]] Json json_of(const Fault& fault, HarpKind kind, const OpenLengths& lengths);
[[nodiscard]] Json json_of(const StringCondition& condition, HarpKind kind);
[[nodiscard]] Json json_of(const DriftParameters& parameters);
[[nodiscard]] Json json_of(const StepDrift& drift);
[[nodiscard]] Json json_of(const LeavingForecast& forecast, Date today);
[[nodiscard]] Json json_of(const VisitComparison& comparison);
[[nodiscard]] Json json_of(const TuneAroundResult& result);
[[nodiscard]] Json json_of(const EnharmonicPair& pair);
[[nodiscard]] Json json_of(const SettingUse& use);
[[nodiscard]] Json json_of(const LetterUse& use);

/// "lower", "upper", or "whole" for flat to sharp.
[[nodiscard]] std::string step_word(const std::optional<Step>& step);

/// The day as numbers of reason count them.
[[nodiscard]] std::string day_text(int days_since_1970);
/// "June 2027" for so many months after a day.
[[nodiscard]] std::string month_text(Date today, int months_ahead);

} // namespace harpkeep::cli
