// SPDX-License-Identifier: MIT
#include "ui/cli/string_json.hpp"

#include "units/quantity.hpp"

#include <cmath>

namespace harpkeep::cli {

namespace {

/// Infinity has no JSON.
Json number(double value)
{
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

Json json_of_limits(const stats::ConfidenceLimits& limits)
{
    return {
        {"lower", number(limits.lower)}, {"upper", number(limits.upper)}, {"confidence", limits.confidence}};
}

Json json_of_own(const std::optional<OwnFit>& own)
{
    if (!own) return nullptr;
    return {{"shape", own->fit.life.shape},
            {"shape_limits", json_of_limits(own->shape)},
            {"scale_days", own->fit.life.scale},
            {"median_days_limits", json_of_limits(own->median_days)},
            {"log_likelihood", own->fit.log_likelihood},
            {"lognormal_excess_aic", json_or_null(own->lognormal_excess)}};
}

Json json_of_curve(const stats::SurvivalCurve& curve)
{
    Json steps = Json::array();
    for (const auto& step : curve.steps)
        steps.push_back({{"age_days", step.time},
                         {"at_risk", step.at_risk},
                         {"breaks", step.failures},
                         {"survival", step.survival},
                         {"standard_error", stats::greenwood_error(step)}});
    return steps;
}

Json json_of_observed(const std::optional<stats::LifeQuantile>& median)
{
    if (!median) return nullptr;
    return {{"value", median->time},
            {"lower", json_or_null(median->lower)},
            {"upper", json_or_null(median->upper)},
            {"confidence", median->confidence}};
}

Json json_of_group(const GroupLife& group)
{
    return {{"name", group.name},
            {"evidence", json_of(group.evidence)},
            {"observed_median_days", json_of_observed(group.observed_median_days)},
            {"own_fit", json_of_own(group.own)},
            {"median_days", group.median_days ? json_of(*group.median_days) : Json(nullptr)},
            {"chance_within_year", group.breaks_in_year ? json_of(*group.breaks_in_year) : Json(nullptr)},
            {"highest_breaks_per_string_year", json_or_null(group.highest_breaks_per_year)},
            {"survival_curve", json_of_curve(group.curve)}};
}

template <class T>
Json json_of_bounds(const Bounded<T>& bounds)
{
    if constexpr (std::is_same_v<T, double>)
        return {{"value", bounds.value}, {"low", bounds.low}, {"high", bounds.high}};
    else
        return {{"value", bounds.value.value()}, {"low", bounds.low.value()}, {"high", bounds.high.value()}};
}

template <class T>
Json json_of_bounds(const std::optional<Bounded<T>>& bounds)
{
    return bounds ? json_of_bounds(*bounds) : Json(nullptr);
}

std::string_view advice_name(ReplacementAdvice advice)
{
    return advice == ReplacementAdvice::replace   ? "replace"
           : advice == ReplacementAdvice::no_help ? "carry-spare"
                                                  : "leave";
}

std::string_view rule_name(SpareRule rule)
{
    return rule == SpareRule::all_together ? "all-together"
           : rule == SpareRule::each_kind  ? "each-kind"
                                           : "least-cost";
}

Json json_of_line(const SpareLine& line)
{
    return {{"kind", line.kind.name},
            {"strings_in_use", line.strings_in_use},
            {"in_stock", line.kind.in_stock},
            {"wanted", line.wanted},
            {"to_order", line.to_order},
            {"expected_breaks", json_of(line.expected_breaks)},
            {"chance_missing_now", json_of(line.chance_missing_now)},
            {"chance_missing_after", line.chance_missing_after},
            {"unit_price_minor_units", json_or_null(line.kind.unit_price_minor_units)},
            {"cost_minor_units", json_or_null(line.cost_minor_units)},
            {"currency", line.kind.currency.empty() ? Json(nullptr) : Json(line.kind.currency)},
            {"not_weighed", line.not_weighed},
            {"never_watched", line.group_never_watched}};
}

} // namespace

Json json_of(const stats::Estimate& estimate)
{
    return {{"value", number(estimate.value)}, {"limits", json_of_limits(estimate.limits)}};
}

Json json_of(const stats::LifeEvidence& evidence)
{
    return {{"strings", evidence.observations},
            {"breaks", evidence.failures},
            {"string_years", evidence.exposure / days_per_year}};
}

Json json_of(const LifeStudy& study)
{
    Json groups = Json::array();
    for (const auto& group : study.groups) groups.push_back(json_of_group(group));
    return {{"method", life_method},
            {"grouping", grouping_name(study.grouping)},
            {"evidence", json_of(study.total)},
            {"shape", study.shape ? json_of(*study.shape) : Json(nullptr)},
            {"difference_p_value", study.difference ? Json(study.difference->p_value) : Json(nullptr)},
            {"silent_because", study.silent ? Json(stats::no_fit_reason(*study.silent)) : Json(nullptr)},
            {"groups", groups}};
}

Json json_of(const ClusterReport& report)
{
    Json clusters = Json::array();
    for (const auto& cluster : report.clusters)
        clusters.push_back(
            {{"harp", cluster.harp},
             {"place", cluster.place ? Json(harp_name(*cluster.place)) : Json(nullptr)},
             {"breaks", cluster.breaks},
             {"expected_breaks", cluster.expected_breaks},
             {"chance", cluster.chance},
             {"corrected_chance", cluster.corrected_chance},
             {"usual_break_point",
              cluster.usual_break_point.empty() ? Json(nullptr) : Json(cluster.usual_break_point)},
             {"beyond_chance", cluster.beyond_chance}});
    return {{"looked_at", report.looked_at}, {"level", report.level}, {"clusters", clusters}};
}

Json json_of(const BreakRisk& risk)
{
    return {{"harp", risk.string.harp},
            {"place", harp_name(risk.string.place)},
            {"material", risk.string.material},
            {"age_days", json_or_null(risk.string.age_days)},
            {"watched_days", risk.string.watched_days},
            {"chance", json_of(risk.chance)},
            {"chance_if_new", json_of(risk.chance_if_new)},
            {"group", risk.group},
            {"group_evidence", risk.group_evidence ? json_of(*risk.group_evidence) : Json(nullptr)}};
}

Json json_of(const RiskReport& report)
{
    Json strings = Json::array();
    for (const auto& risk : report.strings) strings.push_back(json_of(risk));
    return {{"method", life_method},
            {"within_days", report.within_days},
            {"any_break", json_of(report.any_break)},
            {"expected_breaks", json_of(report.expected_breaks)},
            {"evidence", json_of(report.evidence)},
            {"strings", strings}};
}

Json json_of(const ReplacementPlan& plan)
{
    Json lines = Json::array();
    for (const auto& line : plan.lines) {
        Json entry = json_of(line.risk);
        entry["advice"] = advice_name(line.advice);
        entry["relief"] = line.relief;
        lines.push_back(std::move(entry));
    }
    return {{"method", life_method},
            {"days_until", plan.occasion.days_until},
            {"days_long", plan.occasion.days_long},
            {"any_break_as_is", json_of(plan.any_break_as_is)},
            {"any_break_after", json_of(plan.any_break_after)},
            {"settles_too_late", plan.settles_too_late},
            {"evidence", json_of(plan.evidence)},
            {"strings", lines}};
}

Json json_of(const SparePlan& plan)
{
    Json lines = Json::array(), totals = Json::array();
    for (const auto& line : plan.lines) lines.push_back(json_of_line(line));
    for (const auto& total : plan.totals)
        totals.push_back({{"currency", total.currency}, {"minor_units", total.minor_units}});
    return {{"method", life_method},
            {"days", plan.days},
            {"rule", rule_name(plan.rule)},
            {"level", plan.level},
            {"any_missing_now", json_of(plan.any_missing_now)},
            {"any_missing_after", json_of(plan.any_missing_after)},
            {"totals", totals},
            {"unpriced_orders", plan.unpriced_orders},
            {"evidence", json_of(plan.evidence)},
            {"kinds", lines}};
}

Json json_of(const StringFigures& figures)
{
    return {{"place", harp_name(figures.place)},
            {"open_pitch_hz", figures.open_pitch.value()},
            {"mass_per_metre_kg_m", json_of_bounds(figures.mass_per_metre)},
            {"tension_n", json_of_bounds(figures.tension)},
            {"stress_mpa", json_of_bounds(figures.stress)},
            {"share_of_breaking", json_of_bounds(figures.share_of_breaking)},
            {"inharmonicity", json_of_bounds(figures.inharmonicity)},
            {"inharmonicity_is_floor", figures.inharmonicity_is_floor},
            {"stiffness_n_mm", json_of_bounds(figures.stiffness)},
            {"sounding_mass_g", figures.sounding_mass.value()},
            {"weakest_constant", sureness_name(figures.weakest_constant)}};
}

Json json_of(const StringChange& change)
{
    return {{"before", json_of(change.before)},
            {"after", json_of(change.after)},
            {"tension_ratio", change.tension_ratio},
            {"stiffness_ratio", change.stiffness_ratio},
            {"total_before_n", change.total_before.value()},
            {"total_after_n", change.total_after.value()}};
}

} // namespace harpkeep::cli
