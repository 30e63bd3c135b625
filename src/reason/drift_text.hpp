// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/forecast.hpp"
#include "reason/visit_comparison.hpp"

#include <functional>
#include <string>
#include <vector>

namespace harpkeep {

// Drift, forecast and visits in sentences for people. Days are numbers here: the caller knows the calendar.

/// Writes a day as people read it: "2026-11-25".
using DayName = std::function<std::string(int day)>;
/// Writes the month that lies so many months ahead: "June 2027".
using MonthName = std::function<std::string(int months_ahead)>;

/// "4C flat to natural: +1.2 ± 0.5 cents a year, from 9 checks over 3.1 years; ..."
[[nodiscard]] std::string drift_sentence(const StepDrift& drift, HarpKind kind, const DayName& day_name);

/// One step's checks and what happened to it in order of days: what was measured, and what it was most likely
/// once the other checks are heard, each with its 95 % interval.
[[nodiscard]] std::vector<std::string> step_history_sentences(const DriftFit& fit, std::size_t step,
                                                              HarpKind kind, const DayName& day_name);

/// What all steps of the harp share, and what could not be told.
[[nodiscard]] std::vector<std::string> drift_summary_sentences(const DriftFit& fit);

/// "4C flat to natural: +3.1 ± 0.7 cents today; out of tolerance as likely as not by June 2027 ..."
[[nodiscard]] std::string forecast_sentence(const LeavingForecast& forecast, HarpKind kind,
                                            const DayName& day_name, const MonthName& month_name);

[[nodiscard]] std::string change_sentence(const StepChange& change, HarpKind kind);

/// What a visit did, in numbers first, then the steps that changed.
[[nodiscard]] std::vector<std::string> visit_sentences(const VisitComparison& comparison, HarpKind kind);

} // namespace harpkeep
