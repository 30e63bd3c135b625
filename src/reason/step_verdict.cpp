// SPDX-License-Identifier: MIT
#include "reason/step_verdict.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace harpkeep {

namespace {

std::optional<int> plucks_factor_of(const StepVerdict& verdict, const DecisionRule& rule)
{
    if (verdict.conformity != Conformity::not_proven) return 1;
    // Plucks lower the uncertainty with the root of their number; the limit stays where it is.
    const double enough = deciding_uncertainty(verdict.error, verdict.tolerance, rule);
    if (!(enough > 0.0)) return std::nullopt;
    const double factor = std::ceil(std::pow(verdict.error.uncertainty / enough, 2));
    if (factor > most_plucks_factor) return std::nullopt;
    return std::max(2, static_cast<int>(factor));
}

void worst_first(std::vector<StepVerdict>& verdicts)
{
    std::stable_sort(verdicts.begin(), verdicts.end(), [](const StepVerdict& a, const StepVerdict& b) {
        return tolerance_used(a.error.value, a.tolerance) > tolerance_used(b.error.value, b.tolerance);
    });
}

} // namespace

Measured measured_from(const StepError& step)
{
    Measured measured{step.error_cents, step.uncertainty_cents};
    if (step.degrees_of_freedom > 0.0) measured.degrees_of_freedom = step.degrees_of_freedom;
    return measured;
}

double tolerance_used(double error_cents, const ToleranceBand& band)
{
    return error_cents >= 0.0 ? error_cents / band.upper : error_cents / band.lower;
}

StepVerdict judge(StringPlace place, std::optional<Step> step, const Measured& error,
                  const ToleranceSettings& settings)
{
    StepVerdict verdict{
        .place = place, .step = step, .error = error, .tolerance = tolerance_of(settings, place, step)};
    verdict.conformity = decide(error, verdict.tolerance, settings.rule);
    verdict.probability_within = conformance_probability(error, verdict.tolerance);
    const auto inner = watch_band_of(settings, place, step);
    const bool beyond_watch = error.value < inner.lower || error.value > inner.upper;
    verdict.watch = verdict.conformity != Conformity::out && beyond_watch;
    verdict.plucks_factor = plucks_factor_of(verdict, settings.rule);
    return verdict;
}

std::vector<StepVerdict> judge_steps(std::span<const StepError> steps,
                                     std::span<const WholeStepError> whole_steps,
                                     const ToleranceSettings& settings)
{
    std::vector<StepVerdict> verdicts;
    for (const auto& step : steps)
        verdicts.push_back(judge(step.place, step.step, measured_from(step), settings));
    worst_first(verdicts);
    std::vector<StepVerdict> whole;
    for (const auto& step : whole_steps)
        whole.push_back(
            judge(step.place, std::nullopt, {step.error_cents, step.uncertainty_cents}, settings));
    worst_first(whole);
    verdicts.insert(verdicts.end(), whole.begin(), whole.end());
    return verdicts;
}

std::vector<PluckAgain> pluck_again(const HarpLayout& layout, std::span<const StepVerdict> verdicts)
{
    std::vector<PluckAgain> again;
    for (const auto& string : layout.strings) {
        PluckAgain measured{.place = string.place};
        PluckAgain missing{.place = string.place, .missing = true};
        for (const Step step : steps_of(layout.kind, string)) {
            const auto verdict = std::find_if(verdicts.begin(), verdicts.end(), [&](const StepVerdict& v) {
                return v.place == string.place && v.step == step;
            });
            const bool undecided = verdict != verdicts.end() &&
                                   verdict->conformity == Conformity::not_proven && verdict->plucks_factor;
            if (verdict != verdicts.end() && !undecided) continue;
            auto& list = undecided ? measured : missing;
            if (undecided) list.plucks_factor = std::max(list.plucks_factor, *verdict->plucks_factor);
            for (const Position position : positions_of_step(layout.kind, step))
                if (std::find(list.positions.begin(), list.positions.end(), position) == list.positions.end())
                    list.positions.push_back(position);
        }
        for (const auto& list : {measured, missing})
            if (!list.positions.empty()) again.push_back(list);
    }
    return again;
}

} // namespace harpkeep
