// SPDX-License-Identifier: MIT
#pragma once

#include "reason/cause.hpp"
#include "reason/forecast.hpp"
#include "reason/step_verdict.hpp"
#include "reason/string_condition.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// What to do about the technician.
enum class Urgency { call_now, next_visit, not_needed, cannot_say };

enum class ReasonKind {
    pedal_off,       ///< a pedal is off: letter, cents
    steps_far_out,   ///< steps beyond twice their tolerance: count
    steps_out,       ///< steps proven out of tolerance: count
    neck_off,        ///< slope, bend or general offset: cents
    string_off,      ///< single strings off: count, worst place
    poor_ring,       ///< discs that let strings ring short: count, worst place
    no_return,       ///< strings that do not come back: count, worst place
    leaving,         ///< steps likely to leave tolerance within the coming months: count, months
    many_watched,    ///< steps beyond half of their tolerance: count
    visit_due,       ///< the last visit is longer ago than usual: days
    false_strings,   ///< strings to replace before a visit: count, worst place
    settling,        ///< new strings: judge them again later: count
    all_within,      ///< steps proven within: count of all
    no_fault_found,  ///< no pedal, neck or string stands out
    visit_recent,    ///< the last visit was lately: days
    few_measured,    ///< too few steps measured: count of all
    many_not_proven, ///< too many steps on the limit: count of all
};

/// One reason in numbers; reason_sentence() puts it into words.
struct Reason {
    ReasonKind kind = ReasonKind::all_within;
    double weight = 0.0; ///< strength, to put reasons in order; own choice
    int count = 0;
    int of = 0; ///< out of how many
    std::optional<Letter> pedal;
    std::optional<StringPlace> place;
    std::optional<CauseKind> cause;
    double cents = 0.0;
    double lower_cents = 0.0; ///< 95 % interval of `cents`
    double upper_cents = 0.0;
    double probability = 0.0;
    int days = 0;
    int months = 0;
    int rests_on = 0; ///< step errors or readings
};

/// All that is known of a harp on one day; what is not known is left empty.
struct HarpEvidence {
    std::vector<StepVerdict> steps; ///< of the last check
    int steps_expected = 0;         ///< steps that this harp has
    std::optional<CauseReport> causes;
    std::vector<StringCondition> conditions;
    std::vector<LeavingForecast> forecasts;
    std::optional<int> days_since_visit;
    std::optional<int> check_age_days;
};

/// When to call. All are this project's own choice, save the interval of visits: yearly for professionals,
/// recording and advanced students, else every second year ("Harp - frequently asked questions").
struct HarpVerdictSettings {
    int usual_days_between_visits = 730;
    int steps_out_to_call = 6;
    int steps_far_out_to_call = 3;
    double far_out = 2.0;        ///< times the tolerance
    double watched_share = 0.33; ///< of the measured steps: worth naming at the next visit
    double least_measured_share = 0.5;
    double most_not_proven_share = 0.33;
    int months_ahead = 6;
    double leaving_probability = 0.5;
};

struct HarpVerdict {
    Urgency urgency = Urgency::cannot_say;
    /// Of the harp: out as soon as one step is out, within when every step it has is proven within.
    Conformity conformity = Conformity::not_proven;
    std::vector<Reason> reasons; ///< the three strongest, strongest first
    std::vector<Reason> all_reasons;
    int measured = 0, expected = 0;
    int within = 0, not_proven = 0, out = 0, watched = 0;
    double expected_wrong_within =
        0.0; ///< steps called within that are out all the same, by their probabilities
    std::optional<int> check_age_days;
};

/// Weighs up everything into: call the technician now, at the next visit, not needed, or cannot say yet.
///
/// Notes  Steps of strings that are settling or false do not count as out: the string comes first.
[[nodiscard]] HarpVerdict judge_harp(const HarpEvidence& evidence, const HarpVerdictSettings& settings = {});

} // namespace harpkeep
