// SPDX-License-Identifier: MIT
#include "tests/support/score_causes.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::test {

namespace {

double planted_cents(const PlantedFault& fault, std::optional<Step> step)
{
    if (!step) return fault.lower_cents + fault.upper_cents;
    return *step == Step::lower ? fault.lower_cents : fault.upper_cents;
}

const CauseEffect* reported(const CauseReport& report, const PlantedFault& planted, std::optional<Step> step)
{
    for (const auto& fault : report.faults)
        if (fault.pedal == planted.pedal && fault.place == planted.place)
            for (const auto& effect : fault.effects)
                if (effect.step == step) return &effect;
    return nullptr;
}

bool was_measured(const PlantedHarp& harp, StringPlace place, Step step)
{
    return std::any_of(harp.steps.begin(), harp.steps.end(),
                       [&](const StepError& s) { return s.place == place && s.step == step; });
}

/// The steps of a planted fault that a check could see.
std::vector<std::optional<Step>> visible_steps(const PlantedHarp& harp, const PlantedFault& fault)
{
    std::vector<std::optional<Step>> steps;
    for (const Step step : {Step::lower, Step::upper})
        if (planted_cents(fault, step) != 0.0 && (fault.pedal || was_measured(harp, *fault.place, step)))
            steps.push_back(step);
    if (!fault.place || was_measured(harp, *fault.place, Step::lower) ||
        was_measured(harp, *fault.place, Step::upper))
        return steps;
    const bool whole = std::any_of(harp.whole_steps.begin(), harp.whole_steps.end(),
                                   [&](const WholeStepError& w) { return w.place == *fault.place; });
    if (whole && planted_cents(fault, std::nullopt) != 0.0) steps.push_back(std::nullopt);
    return steps;
}

void score_planted(CauseScore& score, const PlantedHarp& harp, const CauseReport& report,
                   const PlantedFault& fault)
{
    const auto steps = visible_steps(harp, fault);
    if (fault.place) ++score.strings_planted;
    if (steps.empty()) return;
    bool found = true;
    for (const auto step : steps) {
        const auto* effect = reported(report, fault, step);
        const double truth = planted_cents(fault, step);
        found = found && effect != nullptr && effect->cents * truth > 0.0;
        if (effect == nullptr) continue;
        ++score.intervals;
        score.intervals_covering += effect->lower_cents <= truth && truth <= effect->upper_cents;
        if (!fault.pedal) continue;
        score.squared_pedal_error += (effect->cents - truth) * (effect->cents - truth);
        ++score.pedal_errors;
    }
    (fault.pedal ? score.pedals : score.strings) += 1;
    (fault.pedal ? score.pedals_found : score.strings_found) += found;
}

} // namespace

void add_to_score(CauseScore& score, const PlantedHarp& harp, const CauseReport& report)
{
    ++score.harps;
    for (const auto& fault : harp.faults) score_planted(score, harp, report, fault);

    bool slope_found = false;
    int false_alarms = 0;
    for (const auto& fault : report.faults) {
        for (const auto& effect : fault.effects) {
            if (effect.kind == CauseKind::slope && harp.slope_cents != 0.0) {
                slope_found = true;
                continue;
            }
            const bool planted = std::any_of(harp.faults.begin(), harp.faults.end(), [&](const auto& p) {
                return p.pedal == effect.pedal && p.place == effect.place && (effect.pedal || effect.place) &&
                       planted_cents(p, effect.step) * effect.cents > 0.0;
            });
            if (planted) continue;
            ++false_alarms;
            (effect.kind == CauseKind::pedal    ? score.false_pedals
             : effect.kind == CauseKind::string ? score.false_strings
                                                : score.false_along_neck) += 1;
        }
    }
    score.harps_with_false_alarm += false_alarms > 0;
    if (harp.slope_cents != 0.0) {
        ++score.slopes;
        score.slopes_found += slope_found;
    }
}

} // namespace harpkeep::test
