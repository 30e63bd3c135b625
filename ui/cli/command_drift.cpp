// SPDX-License-Identifier: MIT
#include "reason/drift_text.hpp"
#include "reason/pedal_drift.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/reason_json.hpp"
#include "ui/cli/reason_words.hpp"
#include "ui/cli/verb.hpp"

#include <algorithm>
#include <array>
#include <cmath>

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

Result<void> drift(const Common& common, const ReasonWords& words)
{
    const auto asked = ask_with_check(common, words);
    if (!asked) return failure(asked.error());
    const auto fit = fit_of(*asked);
    if (!fit) return failure(fit.error());
    const auto kind = asked->knowledge.harp.details.layout.kind;
    if (common.json) {
        Json document = subject_json(*asked);
        document["method"] = drift_method;
        document["parameters"] = json_of(fit->parameters);
        document["season_told"] = fit->season_told;
        document["steps"] = Json::array();
        for (std::size_t i = 0; i < fit->steps.size(); ++i) {
            Json step = json_of(fit->steps[i]);
            const auto now = drift_curve(*fit, i, std::array{asked->day}).front();
            step["now_cents"] = now.cents;
            step["now_uncertainty_cents"] = now.uncertainty_cents;
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
    for (const auto& pedal : pedal_drifts(*fit, kind)) {
        const auto& trend = pedal.trend_cents_per_year;
        if (words.all || std::abs(trend.value) > 1.96 * trend.uncertainty)
            print_line(pedal_drift_sentence(pedal, kind));
    }
    int still = 0;
    for (const auto& step : fit->steps) {
        if (words.all || moves(step) || !step.jumps.empty())
            print_line(drift_sentence(step, kind, day_text));
        else
            ++still;
    }
    if (still > 0)
        print_line(counted(static_cast<std::size_t>(still), "step") +
                   " without a trend that stands out; --all lists them.");
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
    std::size_t printed = 0;
    for (const auto& one : forecasts) {
        if (!words.all && printed >= soonest) break;
        print_line(forecast_sentence(one, kind, day_text, month_name));
        ++printed;
    }
    if (printed < forecasts.size())
        print_line(counted(forecasts.size() - printed, "step") +
                   " more leave later or cannot be foretold; --all lists them.");
    print_line("Forecasts are statistics, not promises.");
    return {};
}

} // namespace

void add_command_drift(CLI::App& app, Common& common, Work& work)
{
    const auto drifting =
        add_verb<ReasonWords>(app, common, work, "drift", "how each step has moved over the checks", drift);
    add_reason_options(*drifting.app, *drifting.words);
    const auto foretelling = add_verb<ReasonWords>(app, common, work, "forecast",
                                                   "when each step is likely to leave tolerance", forecast);
    add_reason_options(*foretelling.app, *foretelling.words);
}

} // namespace harpkeep::cli
