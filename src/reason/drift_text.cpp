// SPDX-License-Identifier: MIT
#include "reason/drift_text.hpp"

#include "reason/verdict_text.hpp"
#include "reason/words.hpp"
#include "units/format.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace harpkeep {

namespace {

constexpr double two_sided_95 = 1.959963984540054; // normal quantile of 97.5 %

std::string estimate_words(const DriftEstimate& estimate, std::string_view unit, int decimals)
{
    return fmt::format(
        "{} {}", format_cents(Cents{estimate.value}, Cents{two_sided_95 * estimate.uncertainty}, decimals),
        unit);
}

std::string evidence_words(int checks, int span_days)
{
    if (checks < 2) return "1 check";
    return fmt::format("{} checks over {}", checks, span_text(span_days));
}

bool is_settled(const DriftEstimate& estimate)
{
    return std::abs(estimate.value) > two_sided_95 * estimate.uncertainty;
}

} // namespace

std::string drift_sentence(const StepDrift& drift, HarpKind kind, const DayName& day_name)
{
    std::string text = fmt::format("{} {}: {}, from {}", harp_name(drift.place), step_words(kind, drift.step),
                                   estimate_words(drift.trend_cents_per_year, "cents a year", 1),
                                   evidence_words(drift.checks, drift.last_day - drift.first_day));
    if (drift.season_amplitude_cents && *drift.season_amplitude_cents >= 0.5)
        text += fmt::format("; swings by about {:.1f} cents with the season", *drift.season_amplitude_cents);
    if (drift.humidity_cents_per_percent && is_settled(*drift.humidity_cents_per_percent))
        text += fmt::format(
            "; {}", estimate_words(*drift.humidity_cents_per_percent, "cents for a percent of humidity", 2));
    for (const auto& jump : drift.jumps)
        if (is_settled({jump.cents, jump.uncertainty_cents}))
            text += fmt::format("; {} at the {} of {}",
                                estimate_words({jump.cents, jump.uncertainty_cents}, "cents", 1),
                                jump.event.kind == HarpEventKind::visit ? "visit" : "string change",
                                day_name(jump.event.day));
    if (drift.points_set_aside > 0)
        text += fmt::format("; {} far off the rest and counted little",
                            how_many(drift.points_set_aside, "check", "checks"));
    return text + ".";
}

std::vector<std::string> step_history_sentences(const DriftFit& fit, std::size_t step, HarpKind kind,
                                                const DayName& day_name)
{
    const auto& history = fit.histories[step];
    std::vector<int> days;
    for (const auto& point : history.points) days.push_back(point.day);
    const auto curve = drift_curve(fit, step, days);
    std::vector<std::pair<int, std::string>> lines; // by day; what happened on a day stands before its check
    for (const auto& event : fit.events)
        if (!event.place || *event.place == history.place)
            lines.emplace_back(event.day, event.kind == HarpEventKind::visit ? "visit" : "string changed");
    for (std::size_t i = 0; i < history.points.size(); ++i) {
        const auto& point = history.points[i];
        const auto humidity = point.relative_humidity_percent
                                  ? fmt::format(" at {:.0f} % humidity", *point.relative_humidity_percent)
                                  : std::string{};
        lines.emplace_back(point.day,
                           fmt::format("measured {}{}, estimated {}",
                                       cents_words(Measured{point.error_cents, point.uncertainty_cents}),
                                       humidity,
                                       cents_words(Measured{curve[i].cents, curve[i].uncertainty_cents})));
    }
    std::stable_sort(lines.begin(), lines.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string> sentences{
        fmt::format("{} {} (± is the 95 % interval; the estimate hears all checks and holds for the usual "
                    "humidity):",
                    harp_name(history.place), step_words(kind, history.step))};
    for (const auto& [day, text] : lines) sentences.push_back(fmt::format("{}: {}", day_name(day), text));
    return sentences;
}

std::vector<std::string> drift_summary_sentences(const DriftFit& fit)
{
    const auto& shared = fit.parameters;
    std::vector<std::string> sentences{
        fmt::format("On this harp checks scatter by {:.1f} cents, steps wander by {:.1f} cents in a year, "
                    "and their trends "
                    "differ by {:.1f} cents a year (all standard deviations), from {}.",
                    shared.check_scatter_cents, shared.wander_cents, shared.trend_spread_cents,
                    how_many(static_cast<int>(fit.steps.size()), "step", "steps"))};
    if (!fit.season_told)
        sentences.emplace_back("A season cannot be told yet: five checks over more than a year would do; a "
                               "usual one is allowed for.");
    if (!(shared.humidity_cents_per_percent > 0.0))
        sentences.emplace_back(
            "What humidity does cannot be told yet: log it at four checks or more that differ by "
            "five percent.");
    return sentences;
}

std::string forecast_sentence(const LeavingForecast& forecast, HarpKind kind, const DayName& day_name,
                              const MonthName& month_name)
{
    const auto name = fmt::format("{} {}", harp_name(forecast.place), step_words(kind, forecast.step));
    const auto evidence = evidence_words(forecast.checks, forecast.span_days);
    if (forecast.gap) {
        const auto day = day_name(forecast.gap->earliest_day);
        const auto wanted =
            forecast.gap->checks_wanted == 1
                ? fmt::format("1 more check on {} or later", day)
                : fmt::format("{} more checks, the last on {} or later,", forecast.gap->checks_wanted, day);
        return fmt::format("{}: {} {} too few for a forecast; {} would do.", name, evidence,
                           forecast.checks == 1 ? "is" : "are", wanted);
    }
    const auto now = cents_words(Measured{forecast.now.cents, forecast.now.uncertainty_cents});
    const auto trend = estimate_words(forecast.trend_cents_per_year, "cents a year", 1);
    const auto start = fmt::format("{}: {} today, {}", name, now, trend);
    if (forecast.out_now > 0.5)
        return fmt::format("{}; {} to be out of tolerance already, from {}.", start,
                           probability_text(forecast.out_now), evidence);
    const auto side = forecast.low_side > 0.5 ? "narrow" : "wide";
    const auto horizon = static_cast<int>(forecast.left_by_month.size());
    if (!forecast.middle_month)
        return fmt::format("{}; {} to leave tolerance by {}, from {}.", start,
                           probability_text(forecast.left_by_month.back()), month_name(horizon), evidence);
    std::string text = fmt::format("{}; as likely as not it becomes too {} by {}", start, side,
                                   month_name(*forecast.middle_month));
    if (*forecast.early_month < *forecast.middle_month)
        text += fmt::format(" (1 in 10 by {}", month_name(*forecast.early_month));
    else
        text += " (1 in 10 by the same month";
    text += forecast.late_month ? fmt::format(", 9 in 10 by {})", month_name(*forecast.late_month))
                                : fmt::format(", {} by {})", probability_text(forecast.left_by_month.back()),
                                              month_name(horizon));
    return fmt::format("{}, from {}, if nothing is done.", text, evidence);
}

std::string change_sentence(const StepChange& change, HarpKind kind)
{
    const auto move =
        fmt::format("{} {}: {} before, {} after", harp_name(change.place), step_words(kind, change.step),
                    cents_words(change.before.error), cents_words(change.after.error));
    switch (change.change) {
    case VisitChange::improved:
        return fmt::format("{}, nearer by {:.1f} cents, {}; now {}.", move, change.nearer_cents,
                           certainty_words(change.probability_nearer),
                           conformity_words(change.after.conformity));
    case VisitChange::worse:
        return fmt::format("{}, farther by {:.1f} cents, {}; now {}.", move, -change.nearer_cents,
                           certainty_words(1.0 - change.probability_nearer),
                           conformity_words(change.after.conformity));
    case VisitChange::unproven:
        break;
    }
    return fmt::format("{}: no change that measuring could not feign; {}.", move,
                       conformity_words(change.after.conformity));
}

std::vector<std::string> visit_sentences(const VisitComparison& comparison, HarpKind kind)
{
    const auto steps = static_cast<int>(comparison.steps.size());
    if (steps == 0)
        return {"No step was measured both before and after the visit; check the same strings in the same "
                "positions on both sides of it."};
    std::vector<std::string> sentences{
        fmt::format(
            "Of {} measured before and after, {} improved, {} became worse, {} show no change beyond what "
            "measuring could feign; about one in twenty of the changes may be chance.",
            how_many(steps, "step", "steps"), comparison.improved, comparison.worse, comparison.unproven),
        fmt::format("Out of tolerance before {}, after {}; proven within before {}, after {}.",
                    comparison.out_before, comparison.out_after, comparison.within_before,
                    comparison.within_after),
        fmt::format("The typical error went from {:.1f} to {:.1f} cents.", comparison.typical_before_cents,
                    comparison.typical_after_cents)};
    if (comparison.only_before + comparison.only_after > 0)
        sentences.push_back(
            fmt::format("{} measured in one of the two checks only.",
                        how_many(comparison.only_before + comparison.only_after, "step was", "steps were")));
    for (const auto& change : comparison.steps)
        if (change.change != VisitChange::unproven) sentences.push_back(change_sentence(change, kind));
    return sentences;
}

} // namespace harpkeep
