// SPDX-License-Identifier: MIT
#include "reason/drift_text.hpp"
#include "reason/pedal_drift.hpp"
#include "reason/words.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

/// The fit of a harp, or that there is no check to make one from.
Result<DriftFit> fit_of(const AskedHarp& asked)
{
    const auto input = ui::drift_input(asked.knowledge);
    auto fit = fit_drift(input.histories, input.events);
    if (!fit)
        return failure(ErrorCode::not_found, asked.knowledge.harp.details.name +
                                                 " has no check with steps yet, so nothing can have moved");
    return *std::move(fit);
}

struct DriftWords {
    ReasonWords reason;
    std::string place;
};

/// Every check of a step with what the step most likely was on that day.
Json history_json(const DriftFit& fit, std::size_t step)
{
    const auto& points = fit.histories[step].points;
    std::vector<int> days;
    for (const auto& point : points) days.push_back(point.day);
    const auto curve = drift_curve(fit, step, days);
    Json history = Json::array();
    for (std::size_t i = 0; i < points.size(); ++i)
        history.push_back({{"on", day_text(points[i].day)},
                           {"error_cents", points[i].error_cents},
                           {"uncertainty_cents", points[i].uncertainty_cents},
                           {"relative_humidity_percent", json_or_null(points[i].relative_humidity_percent)},
                           {"estimate_cents", curve[i].cents},
                           {"estimate_uncertainty_cents", curve[i].uncertainty_cents}});
    return history;
}

std::vector<PedalDrift> pedal_drifts(const DriftFit& fit, HarpKind kind)
{
    std::vector<PedalDrift> out;
    if (kind == HarpKind::lever) return out;
    for (const Letter letter : pedal_order)
        for (const Step step : {Step::lower, Step::upper})
            if (auto drift = pedal_drift(fit, letter, step)) out.push_back(std::move(*drift));
    return out;
}

bool moves(const StepDrift& drift)
{
    return std::abs(drift.trend_cents_per_year.value) > 1.96 * drift.trend_cents_per_year.uncertainty;
}

/// The steps of one string, or of all when none is named.
Result<std::vector<std::size_t>> steps_asked_for(const DriftFit& fit, const DriftWords& words,
                                                 const std::string& harp_name_text)
{
    std::optional<StringPlace> only;
    if (!words.place.empty()) {
        const auto place = place_argument(words.place);
        if (!place) return failure(place.error());
        only = *place;
    }
    std::vector<std::size_t> steps;
    for (std::size_t i = 0; i < fit.steps.size(); ++i)
        if (!only || fit.steps[i].place == *only) steps.push_back(i);
    if (steps.empty())
        return failure(ErrorCode::not_found, fmt::format("no check of {} has measured a step of {}",
                                                         harp_name_text, harp_name(*only)));
    return steps;
}

void print_pedal_drifts(const DriftFit& fit, HarpKind kind, bool all)
{
    for (const auto& pedal : pedal_drifts(fit, kind)) {
        const auto& trend = pedal.trend_cents_per_year;
        if (all || std::abs(trend.value) > 1.96 * trend.uncertainty)
            print_line(pedal_drift_sentence(pedal, kind));
    }
}

void print_drifts(const DriftFit& fit, HarpKind kind, bool all)
{
    int still = 0;
    for (const auto& step : fit.steps) {
        if (all || moves(step) || !step.jumps.empty())
            print_line(drift_sentence(step, kind, day_text));
        else
            ++still;
    }
    if (still > 0)
        print_line(counted(static_cast<std::size_t>(still), "step") +
                   " without a trend that stands out; --all lists them.");
    print_line(interval_remark);
}

Result<void> drift(const Common& common, const DriftWords& words)
{
    const auto asked = ask_with_check(common, words.reason);
    if (!asked) return failure(asked.error());
    const auto fit = fit_of(*asked);
    if (!fit) return failure(fit.error());
    const auto steps = steps_asked_for(*fit, words, asked->knowledge.harp.details.name);
    if (!steps) return failure(steps.error());
    const auto kind = asked->knowledge.harp.details.layout.kind;
    if (common.json) {
        Json document = subject_json(*asked);
        document["method"] = drift_method;
        document["parameters"] = json_of(fit->parameters);
        document["season_told"] = fit->season_told;
        document["steps"] = Json::array();
        for (const std::size_t i : *steps) {
            Json step = json_of(fit->steps[i]);
            const auto now = drift_curve(*fit, i, std::array{asked->day}).front();
            step["now_cents"] = now.cents;
            step["now_uncertainty_cents"] = now.uncertainty_cents;
            step["history"] = history_json(*fit, i);
            document["steps"].push_back(step);
        }
        document["pedals"] = Json::array();
        for (const auto& pedal : pedal_drifts(*fit, kind))
            document["pedals"].push_back(
                {{"pedal", std::string(1, letter_name(pedal.letter))},
                 {"step", step_name(pedal.step)},
                 {"strings", pedal.steps.size()},
                 {"trend_cents_per_year", pedal.trend_cents_per_year.value},
                 {"trend_uncertainty_cents_per_year", pedal.trend_cents_per_year.uncertainty}});
        document["text"] = drift_summary_sentences(*fit);
        print_json(document);
        return {};
    }
    print_line(asked->knowledge.harp.details.name);
    print_sentences(drift_summary_sentences(*fit));
    if (words.place.empty()) {
        print_pedal_drifts(*fit, kind, words.reason.all);
        print_drifts(*fit, kind, words.reason.all);
        return {};
    }
    for (const std::size_t i : *steps) {
        print_line(drift_sentence(fit->steps[i], kind, day_text));
        print_sentences(step_history_sentences(*fit, i, kind, day_text));
    }
    return {};
}

Result<void> forecast(const Common& common, const ReasonWords& words)
{
    const auto asked = ask_with_check(common, words);
    if (!asked) return failure(asked.error());
    const auto fit = fit_of(*asked);
    if (!fit) return failure(fit.error());
    const auto kind = asked->knowledge.harp.details.layout.kind;
    const auto forecasts = forecast_harp(*fit, asked->day, asked->knowledge.tolerances);
    const auto month_name = [&](int months) { return month_text(asked->today, months); };
    if (common.json) {
        Json document = subject_json(*asked);
        document["method"] = drift_method;
        document["forecasts"] = Json::array();
        for (const auto& one : forecasts) {
            Json json = json_of(one, asked->today);
            json["text"] = forecast_sentence(one, kind, day_text, month_name);
            document["forecasts"].push_back(json);
        }
        print_json(document);
        return {};
    }
    print_line(asked->knowledge.harp.details.name);
    constexpr std::size_t soonest = 12; // what fits on a screen
    std::size_t later = 0, without_data = 0;
    for (std::size_t i = 0; i < forecasts.size(); ++i) {
        const auto& one = forecasts[i]; // those with too little data come last
        const bool print = words.all || (one.gap ? without_data == 0 : i < soonest);
        if (print) print_line(forecast_sentence(one, kind, day_text, month_name));
        without_data += one.gap.has_value();
        later += !print && !one.gap;
    }
    if (later > 0) print_line(counted(later, "step") + " more, likely to leave later; --all lists them.");
    if (without_data > 1 && !words.all)
        print_line(counted(without_data - 1, "step") + " more with too few checks; --all lists them.");
    print_line(interval_remark);
    print_line("Forecasts are statistics, not promises.");
    return {};
}

} // namespace

void add_command_drift(CLI::App& app, Common& common, Work& work)
{
    const auto drifting =
        add_verb<DriftWords>(app, common, work, "drift", "how each step has moved over the checks", drift);
    add_reason_options(*drifting.app, drifting.words->reason);
    drifting.app->add_option("--string", drifting.words->place,
                             "the history of this string's steps, check by check, as 4C");
    const auto foretelling = add_verb<ReasonWords>(app, common, work, "forecast",
                                                   "when each step is likely to leave tolerance", forecast);
    add_reason_options(*foretelling.app, *foretelling.words);
}

} // namespace harpkeep::cli
