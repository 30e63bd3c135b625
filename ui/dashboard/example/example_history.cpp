// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep::dashboard::example {

namespace {

using std::chrono::days;

constexpr Day first_check = std::chrono::year{2021} / 3 / 6;
constexpr Day visit_one = std::chrono::year{2022} / 9 / 14;
constexpr Day visit_two = std::chrono::year{2024} / 9 / 11;
constexpr Day new_string = std::chrono::year{2025} / 3 / 2;

double years_between(Day from, Day to)
{
    return static_cast<double>((to - from).count()) / 365.2425;
}

/// Drift since the last visit and a season that peaks in late winter.
double true_error(const HistoryChoice& choice, Day day)
{
    Dice dice{static_cast<std::uint64_t>(choice.place.diatonic_index()) * 7919 +
              (choice.whole_pedal ? 31 : 0) + (choice.step == Step::lower ? 0 : 5)};
    const bool planted = choice.place.letter == Letter::F && choice.step == Step::lower;
    const double slope = planted ? -2.55 : 0.9 * dice.normal();
    const double base = 0.8 * dice.normal();
    const Day since = day >= visit_two ? visit_two : day >= visit_one ? visit_one : first_check - days{200};
    const double season =
        0.7 * std::cos(2.0 * std::numbers::pi *
                       (years_between(std::chrono::sys_days{std::chrono::year{2021} / 2 / 15}, day)));
    return base + slope * years_between(since, day) + season;
}

std::vector<Day> check_days()
{
    std::vector<Day> out;
    Dice dice{404};
    for (Day day = first_check; day <= today_day; day += days{84 + static_cast<int>(14.0 * dice.even())})
        out.push_back(day);
    out.back() = today_day - days{2};
    return out;
}

void add_forecast(HistoryModel& model)
{
    for (int month = 0; month <= 18; ++month) {
        const Day day = today_day + days{30 * month};
        const double expected = true_error(model.choice, day);
        const double spread = 0.9 + 0.16 * month;
        model.forecast.push_back({day, expected, expected - spread, expected + spread});
    }
    for (Day day = first_check; day <= today_day; day += days{15}) {
        const double expected = true_error(model.choice, day);
        model.fitted.push_back({day, expected, expected - 0.8, expected + 0.8});
    }
}

void add_changes(HistoryModel& model, int before, int after)
{
    for (const Day day : check_days())
        model.checks.insert(model.checks.begin(),
                            {day == today_day - days{2} ? "latest" : "", day, "47 strings"});
    for (std::size_t i = 0; i < model.checks.size(); ++i) model.checks[i].key = fmt::format("check-{}", i);
    const auto count = static_cast<int>(model.checks.size());
    model.before = std::clamp(before < 0 ? 9 : before, 0, count - 1);
    model.after = std::clamp(after < 0 ? 0 : after, 0, count - 1);
    int better = 0, worse_steps = 0;
    for (const auto& string : layout_of_heron().strings) {
        if (!string.has_natural_disc) continue;
        for (const Step step : {Step::lower, Step::upper}) {
            const HistoryChoice choice{false, string.place, step};
            const double first = true_error(choice, model.checks[static_cast<std::size_t>(model.before)].day);
            const double second = true_error(choice, model.checks[static_cast<std::size_t>(model.after)].day);
            StepChange change{string.place, step, {first, 0.2}, {second, 0.2}, {second - first, 0.28}};
            change.beyond_uncertainty = std::abs(second - first) > 2.0 * 0.28;
            change.better = std::abs(second) < std::abs(first);
            better += change.beyond_uncertainty && change.better;
            worse_steps += change.beyond_uncertainty && !change.better;
            model.changes.push_back(change);
        }
    }
    std::stable_sort(model.changes.begin(), model.changes.end(),
                     [](const StepChange& a, const StepChange& b) {
                         return std::abs(a.change_cents.value) > std::abs(b.change_cents.value);
                     });
    model.changes_text = fmt::format("{} steps came nearer to 100 cents beyond uncertainty, {} went farther.",
                                     better, worse_steps);
}

} // namespace

HistoryModel history(const HistoryChoice& choice, int before, int after)
{
    HistoryModel model;
    model.harp = heron();
    model.choice = choice;
    for (const auto& string : layout_of_heron().strings)
        if (string.has_natural_disc) model.places.push_back(string.place);
    Dice dice{static_cast<std::uint64_t>(choice.place.diatonic_index()) + 1000};
    for (const Day day : check_days())
        model.points.push_back(
            {day,
             {true_error(choice, day) + 0.35 * dice.normal(), choice.whole_pedal ? 0.15 : 0.3},
             dice.even() > 0.06});
    model.events = {{visit_one, HistoryEventKind::visit, "Visiting technician: felts, grip, intonation"},
                    {visit_two, HistoryEventKind::visit, "Visiting technician: full regulation"}};
    if (!choice.whole_pedal)
        model.events.push_back(
            {new_string, HistoryEventKind::string_change, "New string, gut, after it frayed"});
    add_forecast(model);
    const bool drifting = choice.place.letter == Letter::F && choice.step == Step::lower;
    model.drift_text = drifting ? "Drifts by −2.6 ± 0.3 cents a year since the visit of 2024-09-11."
                                : "No drift to be told from zero since the visit of 2024-09-11.";
    model.season_text = "Swings by ±0.7 cents over the year, widest in late winter.";
    model.forecast_text = drifting
                              ? "Already out of tolerance; by itself it will not come back."
                              : "Stays within tolerance for the next 18 months with a chance of 94 in 100.";
    add_changes(model, before, after);
    return model;
}

} // namespace harpkeep::dashboard::example
