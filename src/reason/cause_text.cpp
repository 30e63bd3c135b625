// SPDX-License-Identifier: MIT
#include "reason/cause_text.hpp"

#include "reason/step_geometry.hpp"
#include "reason/words.hpp"
#include "units/format.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep {

namespace {

std::string effect_words(const CauseEffect& effect, HarpKind kind)
{
    return fmt::format("{} {}", step_words(kind, effect.step),
                       cents_words(effect.cents, effect.lower_cents, effect.upper_cents));
}

std::string effects_words(const Fault& fault, HarpKind kind)
{
    std::vector<std::string> parts;
    for (const auto& effect : fault.effects) parts.push_back(effect_words(effect, kind));
    return listed(parts);
}

/// Of the least sure part.
double least_probability(const Fault& fault)
{
    double least = 1.0;
    for (const auto& effect : fault.effects) least = std::min(least, effect.probability);
    return least;
}

std::string_view pattern_words(StepPattern pattern)
{
    switch (pattern) {
    case StepPattern::both_wide:
        return ", both steps too wide";
    case StepPattern::both_narrow:
        return ", both steps too narrow";
    case StepPattern::natural_high:
        return ", the natural itself high";
    case StepPattern::natural_low:
        return ", the natural itself low";
    case StepPattern::unresolved:
        return ", which of the two steps cannot be told without the natural";
    case StepPattern::lower_only:
    case StepPattern::upper_only:
        break;
    }
    return "";
}

int rests_on(const Fault& fault)
{
    int most = 0;
    for (const auto& effect : fault.effects) most = std::max(most, effect.rests_on);
    return most;
}

std::string pedal_sentence(const Fault& fault, HarpKind kind)
{
    return fmt::format("The {} pedal is off{}: {}; seen on {}, {}. All strings of one pedal off the "
                       "same way point to the pedal, its rod or its adjustment, not to single discs.",
                       letter_name(*fault.pedal), pattern_words(fault.pattern), effects_words(fault, kind),
                       how_many(rests_on(fault), "string", "strings"),
                       certainty_words(least_probability(fault)));
}

std::string string_sentence(const Fault& fault, HarpKind kind, const OpenLengths& lengths)
{
    const auto what = kind == HarpKind::lever ? "its lever, nut or the string itself"
                                              : "its disc, nut or the string itself";
    std::string text =
        fmt::format("{} is off by itself{}: {}; {}. One string alone points to {}.", harp_name(*fault.place),
                    pattern_words(fault.pattern), effects_words(fault, kind),
                    certainty_words(least_probability(fault)), what);
    const auto cent = length_of_cent(fault, kind, lengths);
    if (!cent) return text;
    return text + fmt::format(" Where {} sound, one cent is {:.2f} mm of length by geometry alone; how far "
                              "the pins stretch the string (grip) comes on top.",
                              millimetres_text(cent->sounding), cent->for_one_cent.value());
}

std::string neck_sentence(const Fault& fault, HarpKind kind)
{
    const auto steps = how_many(rests_on(fault), "step", "steps");
    switch (fault.kind) {
    case CauseKind::slope:
        return fmt::format(
            "Along the neck the steps change from the lowest string to the highest: {}; from {}. "
            "A slope points to the neck or the action as a whole.",
            effects_words(fault, kind), steps);
    case CauseKind::bend:
        return fmt::format(
            "The middle of the neck differs from its ends: {}; from {}. A bend points to the neck "
            "or the action as a whole.",
            effects_words(fault, kind), steps);
    default:
        return fmt::format(
            "All strings are off the same way: {}; from {}. That points to the action as a whole, "
            "or to a check in which all pedals did not reach their notch.",
            effects_words(fault, kind), steps);
    }
}

std::string pedals_listed(std::span<const Letter> letters)
{
    std::vector<std::string> names;
    for (const Letter letter : letters) names.emplace_back(1, letter_name(letter));
    return listed(names);
}

/// A new string that comes back low is settling, not badly held.
std::string excuse_for(const StringCondition& low, std::span<const StringCondition> conditions)
{
    if (low.kind != ConditionKind::no_return || low.value >= 0.0) return "";
    const bool is_new = std::any_of(conditions.begin(), conditions.end(), [&](const StringCondition& other) {
        return other.place == low.place && other.kind == ConditionKind::settling;
    });
    return is_new ? " The string is new: it still stretches, which is no fault of its discs."
                  : " A new string sinks so while it settles: note the day when it was put on.";
}

constexpr std::string_view lengths_wanted =
    "With the lengths of the open strings in the stringing plan this would also say what "
    "a cent is in millimetres.";

/// A false or new string excuses its discs.
std::string excuse_for(const Fault& fault, std::span<const StringCondition> conditions)
{
    for (const auto& condition : conditions) {
        if (condition.place != fault.place) continue;
        if (condition.kind == ConditionKind::false_string)
            return " The string sounds false: it comes before its discs.";
        if (condition.kind == ConditionKind::settling)
            return " The string is new: judge it again when it has settled.";
    }
    return "";
}

} // namespace

std::optional<LengthOfCent> length_of_cent(const Fault& fault, HarpKind kind, const OpenLengths& lengths)
{
    if (!fault.place || !fault.effects.front().step) return std::nullopt;
    const auto length = lengths.find(*fault.place);
    if (length == lengths.end()) return std::nullopt;
    const Step step = fault.effects.back().step.value_or(Step::lower);
    const auto sounding = sounding_length(length->second, positions_of_step(kind, step)[1]);
    return LengthOfCent{sounding, length_for_one_cent(sounding)};
}

std::string fault_sentence(const Fault& fault, HarpKind kind, const OpenLengths& lengths)
{
    if (fault.kind == CauseKind::pedal) return pedal_sentence(fault, kind);
    if (fault.kind == CauseKind::string) return string_sentence(fault, kind, lengths);
    return neck_sentence(fault, kind);
}

std::string condition_sentence(const StringCondition& condition, HarpKind kind)
{
    const auto name = harp_name(condition.place);
    const auto readings = how_many(condition.rests_on, "reading", "readings");
    switch (condition.kind) {
    case ConditionKind::settling:
        return fmt::format("{} was put on {} ago and still settles: a pitch that sinks is no fault of the "
                           "regulation.",
                           name, span_text(std::max(1.0, condition.value)));
    case ConditionKind::no_return:
        return fmt::format("{} comes back {}, by {}, after the {} was used; {} from {}{}.", name,
                           condition.value >= 0.0 ? "high" : "low",
                           cents_words(condition.value, condition.lower, condition.upper),
                           kind == HarpKind::lever ? "lever" : "pedal",
                           condition.certainty == Conformity::out ? "proven" : "not proven", readings,
                           condition.certainty == Conformity::out ? "" : "; sound it once more to see");
    case ConditionKind::poor_ring:
        return fmt::format("{} rings only {} as long in {} as its other positions and neighbours let expect "
                           "(95 %: {}), from {}: poor grip there, or a buzz that takes the tone.",
                           name, percent_text(condition.value), position_name(*condition.position),
                           percent_range_text(condition.lower, condition.upper), readings);
    case ConditionKind::false_string:
        break;
    }
    std::string signs;
    if (condition.beat_rate_hz)
        signs = fmt::format(", beating {:.1f} times a second", *condition.beat_rate_hz);
    if (condition.irregular_cents)
        signs += fmt::format(", partials typically {:.1f} cents off one string's series",
                             *condition.irregular_cents);
    return fmt::format(
        "{} sounds false in all {} positions{} ({}; chance alone: {}): a worn or false string, "
        "to be replaced before its discs are judged.",
        name, condition.positions_affected, signs, readings, probability_text(condition.value));
}

std::vector<std::string> cause_sentences(const std::optional<CauseReport>& report,
                                         std::span<const StringCondition> conditions, int steps_measured,
                                         HarpKind kind, const OpenLengths& lengths)
{
    std::vector<std::string> sentences;
    if (!report)
        sentences.push_back(fmt::format(
            "{} measured: causes can be told apart from {} on, best with {} strings of each pedal.",
            how_many(steps_measured, "step", "steps"), least_steps_for_cause, least_strings_of_pedal));
    if (report) {
        for (const auto& fault : report->faults)
            sentences.push_back(fault_sentence(fault, kind, lengths) + excuse_for(fault, conditions));
        if (report->faults.empty())
            sentences.push_back(
                fmt::format("No pedal, no string and nothing along the neck stands out of the "
                            "scatter of {:.1f} cents, from {}.",
                            report->scatter_cents, how_many(report->steps_used, "step", "steps")));
        for (const auto& fault : report->suspected)
            sentences.push_back("Perhaps, not certain enough to say: " +
                                fault_sentence(fault, kind, lengths));
        if (!report->unclear_pedals.empty())
            sentences.push_back(fmt::format("Of {} fewer than {} strings were measured, so a pedal cannot be "
                                            "told from its strings there; {} strings of each would suffice.",
                                            pedals_listed(report->unclear_pedals), least_strings_of_pedal,
                                            least_strings_of_pedal));
    }
    for (const auto& condition : conditions)
        sentences.push_back(condition_sentence(condition, kind) + excuse_for(condition, conditions));
    if (report && std::any_of(report->faults.begin(), report->faults.end(), [&](const Fault& fault) {
            return fault.place && lengths.count(*fault.place) == 0;
        }))
        sentences.emplace_back(lengths_wanted);
    if (report && !report->faults.empty()) sentences.emplace_back(mechanism_caution);
    return sentences;
}

} // namespace harpkeep
