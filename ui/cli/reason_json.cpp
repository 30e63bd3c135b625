// SPDX-License-Identifier: MIT
#include "ui/cli/reason_json.hpp"

#include "reason/cause_text.hpp"
#include "reason/verdict_text.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace harpkeep::cli {

namespace {

Json place_json(const std::optional<StringPlace>& place)
{
    return place ? Json(harp_name(*place)) : Json(nullptr);
}

Json pedal_json(const std::optional<Letter>& pedal)
{
    return pedal ? Json(std::string(1, letter_name(*pedal))) : Json(nullptr);
}

Json band_json(const ToleranceBand& band)
{
    return Json::array({band.lower, band.upper});
}

/// JSON knows no infinity: unknown many degrees of freedom are null.
Json finite_or_null(double value)
{
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

std::string_view conformity_name(Conformity conformity)
{
    constexpr std::array<std::string_view, 3> names{"within", "not_proven", "out"};
    return names[static_cast<std::size_t>(conformity)];
}

std::string_view urgency_name(Urgency urgency)
{
    constexpr std::array<std::string_view, 4> names{"call_now", "next_visit", "not_needed", "cannot_say"};
    return names[static_cast<std::size_t>(urgency)];
}

std::string_view reason_name(ReasonKind kind)
{
    constexpr std::array<std::string_view, 17> names{
        "pedal_off",  "steps_far_out",  "steps_out",    "neck_off",     "string_off",     "poor_ring",
        "no_return",  "leaving",        "many_watched", "visit_due",    "false_strings",  "settling",
        "all_within", "no_fault_found", "visit_recent", "few_measured", "many_not_proven"};
    return names[static_cast<std::size_t>(kind)];
}

std::string_view cause_name(CauseKind kind)
{
    constexpr std::array<std::string_view, 5> names{"general", "slope", "bend", "pedal", "string"};
    return names[static_cast<std::size_t>(kind)];
}

std::string_view pattern_name(StepPattern pattern)
{
    constexpr std::array<std::string_view, 7> names{"lower_only",   "upper_only",  "both_wide", "both_narrow",
                                                    "natural_high", "natural_low", "unresolved"};
    return names[static_cast<std::size_t>(pattern)];
}

std::string_view condition_name(ConditionKind kind)
{
    constexpr std::array<std::string_view, 4> names{"settling", "no_return", "false_string", "poor_ring"};
    return names[static_cast<std::size_t>(kind)];
}

Json estimate_json(const DriftEstimate& estimate)
{
    return {{"value", estimate.value}, {"uncertainty", estimate.uncertainty}};
}

Json reason_json(const Reason& reason, HarpKind kind)
{
    return {{"kind", reason_name(reason.kind)},
            {"text", reason_sentence(reason, kind)},
            {"count", reason.count},
            {"of", reason.of},
            {"pedal", pedal_json(reason.pedal)},
            {"place", place_json(reason.place)},
            {"cents", reason.cents},
            {"interval_cents", Json::array({reason.lower_cents, reason.upper_cents})},
            {"probability", reason.probability},
            {"days", reason.days},
            {"rests_on", reason.rests_on}};
}

Json month_json(Date today, const std::optional<int>& months)
{
    if (!months) return nullptr;
    return iso_date(plus_months(today, *months)).substr(0, 7);
}

Json figure_json(const TuningFigure& figure)
{
    return {{"cents", figure.cents}, {"uncertainty_cents", figure.uncertainty_cents}};
}

Json used_json(const UsedPosition& used)
{
    return {{"position", position_name(used.position)},
            {"alteration", used.alteration},
            {"weight", used.weight},
            {"before_cents", json_or_null(used.before_cents)},
            {"before_uncertainty_cents", used.before_uncertainty_cents},
            {"after_cents", json_or_null(used.after_cents)},
            {"after_uncertainty_cents", used.after_uncertainty_cents}};
}

Json change_json(const StepChange& change)
{
    constexpr std::array<std::string_view, 3> names{"improved", "worse", "unproven"};
    return {{"place", harp_name(change.place)},
            {"step", step_name(change.step)},
            {"change", names[static_cast<std::size_t>(change.change)]},
            {"before_cents", change.before.error.value},
            {"after_cents", change.after.error.value},
            {"moved_cents", change.moved_cents},
            {"moved_uncertainty_cents", change.moved_uncertainty_cents},
            {"nearer_cents", change.nearer_cents},
            {"probability_nearer", change.probability_nearer},
            {"before_verdict", conformity_name(change.before.conformity)},
            {"after_verdict", conformity_name(change.after.conformity)}};
}

} // namespace

std::string step_word(const std::optional<Step>& step)
{
    return step ? std::string(step_name(*step)) : "whole";
}

std::string day_text(int days_since_1970)
{
    return iso_date(date_from_days(days_since_1970));
}

std::string month_text(Date today, int months_ahead)
{
    constexpr std::array<std::string_view, 12> names{"January",   "February", "March",    "April",
                                                     "May",       "June",     "July",     "August",
                                                     "September", "October",  "November", "December"};
    const Date then = plus_months(today, months_ahead);
    return fmt::format("{} {}", names[static_cast<std::size_t>(then.month - 1)], then.year);
}

Json json_of(const StepVerdict& verdict)
{
    return {{"place", harp_name(verdict.place)},
            {"step", step_word(verdict.step)},
            {"error_cents", verdict.error.value},
            {"uncertainty_cents", verdict.error.uncertainty},
            {"degrees_of_freedom", finite_or_null(verdict.error.degrees_of_freedom)},
            {"tolerance_cents", band_json(verdict.tolerance)},
            {"verdict", conformity_name(verdict.conformity)},
            {"watch", verdict.watch},
            {"probability_within", verdict.probability_within},
            {"plucks_factor", json_or_null(verdict.plucks_factor)}};
}

Json json_of(const PluckAgain& again)
{
    Json positions = Json::array();
    for (const Position position : again.positions) positions.push_back(position_name(position));
    return {{"place", harp_name(again.place)},
            {"positions", positions},
            {"missing", again.missing},
            {"plucks_factor", again.plucks_factor},
            {"text", pluck_again_sentence(again)}};
}

Json json_of(const ToleranceSettings& settings)
{
    Json octaves = Json::object();
    for (const auto& [octave, band] : settings.by_harp_octave)
        octaves[std::to_string(octave)] = band_json(band);
    return {{"standard_cents", band_json(settings.standard)},
            {"octaves_cents", octaves},
            {"whole_step_factor", settings.whole_step_factor},
            {"watch_share", settings.watch_share},
            {"confidence", settings.rule.confidence},
            {"project_default", settings.is_project_default()},
            {"text", tolerance_sentence(settings)}};
}

Json json_of(const HarpVerdict& verdict, HarpKind kind)
{
    Json reasons = Json::array();
    for (const auto& reason : verdict.all_reasons) reasons.push_back(reason_json(reason, kind));
    return {{"urgency", urgency_name(verdict.urgency)},
            {"verdict", conformity_name(verdict.conformity)},
            {"reasons", reasons},
            {"steps_expected", verdict.expected},
            {"steps_measured", verdict.measured},
            {"within", verdict.within},
            {"not_proven", verdict.not_proven},
            {"out", verdict.out},
            {"watched", verdict.watched},
            {"expected_wrong_within", verdict.expected_wrong_within},
            {"check_age_days", json_or_null(verdict.check_age_days)},
            {"text", verdict_sentences(verdict, kind)}};
}

Json json_of(const CauseEffect& effect)
{
    return {{"kind", cause_name(effect.kind)},
            {"pedal", pedal_json(effect.pedal)},
            {"place", place_json(effect.place)},
            {"step", step_word(effect.step)},
            {"cents", effect.cents},
            {"interval_cents", Json::array({effect.lower_cents, effect.upper_cents})},
            {"probability", effect.probability},
            {"rests_on", effect.rests_on}};
}

Json json_of(const Fault& fault, HarpKind kind, const OpenLengths& lengths)
{
    const auto cent = length_of_cent(fault, kind, lengths);
    Json effects = Json::array();
    for (const auto& effect : fault.effects) effects.push_back(json_of(effect));
    return {{"kind", cause_name(fault.kind)},
            {"pedal", pedal_json(fault.pedal)},
            {"place", place_json(fault.place)},
            {"pattern", pattern_name(fault.pattern)},
            {"greatest_cents", fault.greatest_cents},
            {"effects", effects},
            {"sounding_length_mm", cent ? Json(cent->sounding.value()) : Json(nullptr)},
            {"cent_of_length_mm", cent ? Json(cent->for_one_cent.value()) : Json(nullptr)},
            {"text", fault_sentence(fault, kind, lengths)}};
}

Json json_of(const StringCondition& condition, HarpKind kind)
{
    Json json{{"kind", condition_name(condition.kind)}, {"place", harp_name(condition.place)}};
    switch (condition.kind) {
    case ConditionKind::settling:
        json["days_on"] = condition.value;
        break;
    case ConditionKind::no_return:
        json["cents"] = condition.value;
        json["interval_cents"] = Json::array({condition.lower, condition.upper});
        json["verdict"] = conformity_name(condition.certainty);
        break;
    case ConditionKind::false_string:
        json["chance_of_accident"] = condition.value;
        json["beat_rate_hz"] = json_or_null(condition.beat_rate_hz);
        json["irregular_cents"] = json_or_null(condition.irregular_cents);
        break;
    case ConditionKind::poor_ring:
        json["position"] = position_name(*condition.position);
        json["share_of_ring"] = condition.value;
        json["interval_share"] = Json::array({condition.lower, condition.upper});
        break;
    }
    json["rests_on"] = condition.rests_on;
    json["text"] = condition_sentence(condition, kind);
    return json;
}

Json json_of(const DriftParameters& parameters)
{
    return {{"check_scatter_cents", parameters.check_scatter_cents},
            {"wander_cents_per_root_year", parameters.wander_cents},
            {"trend_spread_cents_per_year", parameters.trend_spread_cents},
            {"lower_trend_cents_per_year", parameters.lower_trend_cents},
            {"upper_trend_cents_per_year", parameters.upper_trend_cents},
            {"season_cents", parameters.season_cents},
            {"humidity_cents_per_percent", parameters.humidity_cents_per_percent}};
}

Json json_of(const StepDrift& drift)
{
    Json jumps = Json::array();
    for (const auto& jump : drift.jumps)
        jumps.push_back({{"kind", jump.event.kind == HarpEventKind::visit ? "visit" : "string_change"},
                         {"on", day_text(jump.event.day)},
                         {"cents", jump.cents},
                         {"uncertainty_cents", jump.uncertainty_cents}});
    return {{"place", harp_name(drift.place)},
            {"step", step_name(drift.step)},
            {"checks", drift.checks},
            {"first_on", day_text(drift.first_day)},
            {"last_on", day_text(drift.last_day)},
            {"trend_cents_per_year", estimate_json(drift.trend_cents_per_year)},
            {"season_amplitude_cents", json_or_null(drift.season_amplitude_cents)},
            {"humidity_cents_per_percent", drift.humidity_cents_per_percent
                                               ? estimate_json(*drift.humidity_cents_per_percent)
                                               : Json(nullptr)},
            {"jumps", jumps},
            {"points_set_aside", drift.points_set_aside}};
}

Json json_of(const LeavingForecast& forecast, Date today)
{
    Json json{{"place", harp_name(forecast.place)},
              {"step", step_name(forecast.step)},
              {"now_cents", forecast.now.cents},
              {"now_uncertainty_cents", forecast.now.uncertainty_cents},
              {"tolerance_cents", band_json(forecast.tolerance)},
              {"trend_cents_per_year", estimate_json(forecast.trend_cents_per_year)},
              {"probability_out_now", forecast.out_now},
              {"checks", forecast.checks},
              {"span_days", forecast.span_days}};
    if (forecast.gap) {
        json["too_little_data"] = {{"checks_wanted", forecast.gap->checks_wanted},
                                   {"not_before", day_text(forecast.gap->earliest_day)}};
        return json;
    }
    json["too_little_data"] = nullptr;
    json["probability_left_by_month"] = forecast.left_by_month;
    json["month_10_percent"] = month_json(today, forecast.early_month);
    json["month_50_percent"] = month_json(today, forecast.middle_month);
    json["month_90_percent"] = month_json(today, forecast.late_month);
    json["share_leaving_narrow"] = forecast.low_side;
    return json;
}

Json json_of(const VisitComparison& comparison)
{
    Json steps = Json::array();
    for (const auto& change : comparison.steps) steps.push_back(change_json(change));
    return {{"improved", comparison.improved},
            {"worse", comparison.worse},
            {"unproven", comparison.unproven},
            {"out_before", comparison.out_before},
            {"out_after", comparison.out_after},
            {"within_before", comparison.within_before},
            {"within_after", comparison.within_after},
            {"typical_before_cents", comparison.typical_before_cents},
            {"typical_after_cents", comparison.typical_after_cents},
            {"only_before", comparison.only_before},
            {"only_after", comparison.only_after},
            {"steps", steps}};
}

Json json_of(const TuneAroundResult& result)
{
    Json strings = Json::array();
    for (const auto& string : result.strings) {
        Json used = Json::array();
        for (const auto& position : string.used) used.push_back(used_json(position));
        strings.push_back({{"place", harp_name(string.place)},
                           {"position", position_name(string.position)},
                           {"alteration", string.alteration},
                           {"frequency_hz", string.target_hz},
                           {"offset_cents", string.offset_cents},
                           {"moved_cents", string.moved_cents},
                           {"moved_uncertainty_cents", string.moved_uncertainty_cents},
                           {"by_hand", string.by_hand},
                           {"used", used}});
    }
    Json impossible = Json::array();
    for (const auto& note : result.impossible)
        impossible.push_back({{"place", harp_name(note.place)}, {"alteration", note.alteration}});
    return {{"before",
             {{"greatest", figure_json(result.greatest_before)},
              {"worst", place_json(result.worst_before)},
              {"typical", figure_json(result.typical_before)}}},
            {"after",
             {{"greatest", figure_json(result.greatest_after)},
              {"worst", place_json(result.worst_after)},
              {"typical", figure_json(result.typical_after)}}},
            {"strings", strings},
            {"impossible", impossible},
            {"used_positions", result.used_positions},
            {"unknown_positions", result.unknown_positions}};
}

Json json_of(const EnharmonicPair& pair)
{
    return {{"lower_place", harp_name(pair.lower_place)},
            {"lower_position", position_name(pair.lower_position)},
            {"upper_place", harp_name(pair.upper_place)},
            {"upper_position", position_name(pair.upper_position)},
            {"frequency_hz", pair.frequency_hz},
            {"cents", pair.cents},
            {"uncertainty_cents", pair.uncertainty_cents},
            {"beats_per_second", pair.beats_per_second},
            {"rests_on", pair.rests_on}};
}

Json json_of(const LetterUse& use)
{
    return {{"letter", std::string(1, letter_name(use.letter))},
            {"alteration", use.alteration},
            {"verdict", conformity_name(use.conformity)},
            {"greatest_cents", use.greatest_cents},
            {"uncertainty_cents", use.uncertainty_cents},
            {"worst", place_json(use.worst)},
            {"measured", use.measured},
            {"not_measured", use.not_measured},
            {"impossible", use.impossible}};
}

Json json_of(const SettingUse& use)
{
    return {{"name", use.name},
            {"diagram", pedal_diagram(use.setting)},
            {"pedals", pedal_names(use.setting)},
            {"verdict", conformity_name(use.conformity)},
            {"worst", json_of(use.worst)},
            {"not_measured", use.not_measured},
            {"impossible", use.impossible}};
}

} // namespace harpkeep::cli
