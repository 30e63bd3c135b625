// SPDX-License-Identifier: MIT
#include "ui/dashboard/ledger/ledger_history.hpp"

#include "reason/drift_text.hpp"
#include "reason/forecast.hpp"
#include "reason/pedal_drift.hpp"
#include "reason/visit_comparison.hpp"
#include "ui/dashboard/ledger/ledger_words.hpp"
#include "ui/dashboard/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace harpkeep::dashboard {

namespace {

int day_number(const StoredCheck& check)
{
    return ui::day_of(check);
}

/// With the limits that hold 95 of 100.
std::vector<ForecastPoint> with_limits(const std::vector<DriftPoint>& points)
{
    std::vector<ForecastPoint> out;
    for (const auto& p : points) {
        const double reach = 1.96 * p.uncertainty_cents;
        out.push_back({Day{std::chrono::days{p.day}}, p.cents, p.cents - reach, p.cents + reach});
    }
    return out;
}

std::vector<ForecastPoint> curve(const DriftFit& fit, std::size_t step, int from, int until, int every)
{
    std::vector<int> days;
    for (int day = from; day <= until; day += every) days.push_back(day);
    return with_limits(drift_curve(fit, step, days));
}

/// One step of one string, check by check.
std::vector<dashboard::HistoryPoint> points_of_string(const ui::HarpKnowledge& facts,
                                                      const HistoryChoice& choice)
{
    std::vector<dashboard::HistoryPoint> out;
    for (const auto& check : facts.history)
        for (const auto& step : check.result.steps)
            if (step.place == choice.place && step.step == choice.step)
                out.push_back({Day{std::chrono::days{day_number(check)}},
                               {step.error_cents, step.uncertainty_cents},
                               true});
    return out;
}

/// The mean of all strings of a pedal, check by check, with the uncertainty of that mean from measuring
/// alone.
std::vector<dashboard::HistoryPoint> points_of_pedal(const ui::HarpKnowledge& facts,
                                                     const HistoryChoice& choice)
{
    std::vector<dashboard::HistoryPoint> out;
    for (const auto& check : facts.history) {
        double sum = 0.0, variance = 0.0;
        int count = 0;
        for (const auto& step : check.result.steps) {
            if (step.place.letter != choice.place.letter || step.step != choice.step) continue;
            sum += step.error_cents;
            variance += step.uncertainty_cents * step.uncertainty_cents;
            ++count;
        }
        if (count > 0)
            out.push_back({Day{std::chrono::days{day_number(check)}},
                           {sum / count, std::sqrt(variance) / count},
                           true});
    }
    return out;
}

void add_drift(HistoryModel& model, const ui::HarpKnowledge& facts, const DriftFit& fit, Date on)
{
    const auto found = std::find_if(fit.steps.begin(), fit.steps.end(), [&](const StepDrift& drift) {
        return drift.place == model.choice.place && drift.step == model.choice.step;
    });
    if (found == fit.steps.end()) return;
    const auto index = static_cast<std::size_t>(found - fit.steps.begin());
    const int today = days_since_epoch(on);
    const auto day_name = [](int day) { return iso_date(date_from_days(day)); };
    const auto month_name = [today](int ahead) {
        const Date date = plus_months(date_from_days(today), ahead);
        return fmt::format("{} {}", text::months[static_cast<std::size_t>(date.month - 1)], date.year);
    };
    model.drift_text = drift_sentence(*found, facts.harp.details.layout.kind, day_name);
    const auto band = tolerance_of(facts.tolerances, model.choice.place, model.choice.step);
    const auto forecast = forecast_leaving(fit, index, today, band);
    model.forecast_text = forecast_sentence(forecast, facts.harp.details.layout.kind, day_name, month_name);
    const int span = std::max(1, found->last_day - found->first_day);
    model.fitted = curve(fit, index, found->first_day, found->last_day, std::max(1, span / 200));
    if (!forecast.gap) model.forecast = curve(fit, index, found->last_day, today + 540, 30);
    const auto shared = drift_summary_sentences(fit);
    if (!shared.empty()) model.season_text = shared.front();
}

std::vector<ForecastPoint> pedal_points(const DriftFit& fit, const PedalDrift& drift, int from, int until,
                                        int every)
{
    std::vector<int> days;
    for (int day = from; day <= until; day += every) days.push_back(day);
    return with_limits(pedal_curve(fit, drift, days));
}

void add_pedal_drift(HistoryModel& model, const DriftFit& fit, HarpKind kind, Date on)
{
    const auto drift = pedal_drift(fit, model.choice.place.letter, model.choice.step);
    constexpr ForecastSettings wanted;
    if (!drift || drift->checks < wanted.least_checks) return;
    model.drift_text = pedal_drift_sentence(*drift, kind);
    const auto shared = drift_summary_sentences(fit);
    if (!shared.empty()) model.season_text = shared.front();
    const int span_days = drift->last_day - drift->first_day;
    model.fitted = pedal_points(fit, *drift, drift->first_day, drift->last_day, std::max(1, span_days / 200));
    if (span_days < wanted.least_span_days) return;
    model.forecast = pedal_points(fit, *drift, drift->last_day, days_since_epoch(on) + 540, 30);
    model.forecast_text = text::pedal_forecast;
}

void add_comparison(HistoryModel& model, const ui::HarpKnowledge& facts, int before, int after)
{
    // Newest first in the lists, oldest first in the facts.
    for (auto check = facts.history.rbegin(); check != facts.history.rend(); ++check)
        model.checks.push_back({to_string(check->id), Day{std::chrono::days{day_number(*check)}}, ""});
    const auto count = static_cast<int>(model.checks.size());
    if (count < 2) return;
    model.after = after >= 0 && after < count ? after : 0;
    model.before = before >= 0 && before < count ? before : 1;
    const auto& first = facts.history[static_cast<std::size_t>(count - 1 - model.before)];
    const auto& second = facts.history[static_cast<std::size_t>(count - 1 - model.after)];
    const auto comparison = compare_visit(first.result.steps, second.result.steps, facts.tolerances);
    for (const auto& step : comparison.steps)
        model.changes.push_back({step.place,
                                 step.step,
                                 {step.before.error.value, step.before.error.uncertainty},
                                 {step.after.error.value, step.after.error.uncertainty},
                                 {step.moved_cents, step.moved_uncertainty_cents},
                                 step.change != VisitChange::unproven,
                                 step.change == VisitChange::improved});
    std::stable_sort(model.changes.begin(), model.changes.end(), [](const auto& a, const auto& b) {
        return std::abs(a.change_cents.value) > std::abs(b.change_cents.value);
    });
    model.changes_text =
        fmt::format(text::comparison_format, comparison.improved, comparison.worse, comparison.unproven);
}

} // namespace

std::optional<DriftFit> fit_history(const ui::HarpKnowledge& knowledge)
{
    const auto input = ui::drift_input(knowledge);
    return fit_drift(input.histories, input.events);
}

HistoryModel history_from(const ui::HarpKnowledge& facts, const std::optional<DriftFit>& fit,
                          const HistoryChoice& choice, int before, int after, Date today)
{
    const auto& layout = facts.harp.details.layout;
    HistoryModel model;
    model.kind = layout.kind;
    model.choice = choice;
    for (const auto& string : layout.strings)
        if (!steps_of(layout.kind, string).empty()) model.places.push_back(string.place);
    if (!choice.whole_pedal && !model.places.empty() &&
        std::find(model.places.begin(), model.places.end(), choice.place) == model.places.end())
        model.choice.place = model.places[model.places.size() / 2];
    if (layout.kind != HarpKind::pedal) model.choice.step = Step::lower;
    const auto band = tolerance_of(facts.tolerances, model.choice.place, model.choice.step);
    model.low_cents = band.lower;
    model.high_cents = band.upper;
    model.points =
        choice.whole_pedal ? points_of_pedal(facts, model.choice) : points_of_string(facts, model.choice);
    for (const auto& visit : facts.visits)
        model.events.push_back(
            {day_of(visit.visit.visited_on), HistoryEventKind::visit,
             visit.visit.technician.empty() ? visit.visit.remarks : visit.visit.technician});
    for (const auto& life : facts.strings)
        if (!choice.whole_pedal && life.string.place == model.choice.place && life.string.put_on)
            model.events.push_back(
                {day_of(*life.string.put_on), HistoryEventKind::string_change, make_text(life.string.make)});
    std::stable_sort(model.events.begin(), model.events.end(),
                     [](const HistoryEvent& a, const HistoryEvent& b) { return a.day < b.day; });
    if (fit && choice.whole_pedal)
        add_pedal_drift(model, *fit, layout.kind, today);
    else if (fit)
        add_drift(model, facts, *fit, today);
    add_comparison(model, facts, before, after);
    return model;
}

} // namespace harpkeep::dashboard
