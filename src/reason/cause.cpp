// SPDX-License-Identifier: MIT
#include "reason/cause.hpp"

#include "reason/cause_model.hpp"
#include "stats/quantiles.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

CauseEffect effect_of(const CauseTerm& term, const stats::EffectEstimate& estimate, double degrees_of_freedom)
{
    const double half_width = stats::coverage_factor(0.95, degrees_of_freedom) * estimate.uncertainty;
    return {.kind = term.kind,
            .pedal = term.pedal,
            .place = term.place,
            .step = term.step,
            .cents = estimate.value,
            .lower_cents = estimate.value - half_width,
            .upper_cents = estimate.value + half_width,
            .probability = estimate.probability,
            .rests_on = term.rests_on};
}

double least_cents(CauseKind kind, const CauseSettings& settings)
{
    switch (kind) {
    case CauseKind::pedal:
        return settings.least_pedal_cents;
    case CauseKind::string:
        return settings.least_string_cents;
    case CauseKind::general:
    case CauseKind::slope:
    case CauseKind::bend:
        break;
    }
    return settings.least_along_neck_cents;
}

StepPattern pattern_of(const std::vector<CauseEffect>& effects)
{
    if (effects.size() == 1) {
        if (!effects.front().step) return StepPattern::unresolved;
        return *effects.front().step == Step::lower ? StepPattern::lower_only : StepPattern::upper_only;
    }
    const double lower = effects[0].cents;
    const double upper = effects[1].cents;
    if (lower > 0.0) return upper > 0.0 ? StepPattern::both_wide : StepPattern::natural_high;
    return upper > 0.0 ? StepPattern::natural_low : StepPattern::both_narrow;
}

/// Effects of one pedal, string or the neck that pass `probability` make one fault; the lower step comes
/// first in `effects`, as in the model.
std::vector<Fault> faults_with(const std::vector<CauseEffect>& effects, double least_probability,
                               double below_probability, const CauseSettings& settings)
{
    std::vector<Fault> faults;
    for (const auto& effect : effects) {
        if (effect.probability < least_probability || effect.probability >= below_probability ||
            std::abs(effect.cents) < least_cents(effect.kind, settings))
            continue;
        const auto same = std::find_if(faults.begin(), faults.end(), [&](const Fault& fault) {
            return fault.kind == effect.kind && fault.pedal == effect.pedal && fault.place == effect.place;
        });
        if (same == faults.end())
            faults.push_back({effect.kind, effect.pedal, effect.place, {}, {effect}, effect.cents});
        else
            same->effects.push_back(effect);
    }
    for (auto& fault : faults) {
        std::sort(fault.effects.begin(), fault.effects.end(),
                  [](const CauseEffect& a, const CauseEffect& b) { return a.step < b.step; });
        fault.pattern = pattern_of(fault.effects);
        for (const auto& effect : fault.effects)
            if (std::abs(effect.cents) > std::abs(fault.greatest_cents)) fault.greatest_cents = effect.cents;
    }
    std::stable_sort(faults.begin(), faults.end(), [](const Fault& a, const Fault& b) {
        return std::abs(a.greatest_cents) > std::abs(b.greatest_cents);
    });
    return faults;
}

std::vector<Letter> unclear_pedals(const HarpLayout& layout, const CauseModel& model)
{
    std::vector<Letter> unclear;
    if (layout.kind == HarpKind::lever) return unclear;
    for (const Letter letter : pedal_order) {
        const bool on_harp =
            std::any_of(layout.strings.begin(), layout.strings.end(),
                        [&](const HarpString& s) { return s.place.letter == letter && s.has_natural_disc; });
        int most = 0;
        for (const auto& term : model.terms)
            if (term.kind == CauseKind::pedal && term.pedal == letter) most = std::max(most, term.rests_on);
        if (on_harp && most < least_strings_of_pedal) unclear.push_back(letter);
    }
    return unclear;
}

} // namespace

std::optional<CauseReport> find_causes(const HarpLayout& layout, std::span<const StepError> steps,
                                       std::span<const WholeStepError> whole_steps,
                                       const CauseSettings& settings)
{
    const CauseModel model = make_cause_model(layout, steps, whole_steps);
    if (static_cast<int>(model.observations.size()) < least_steps_for_cause) return std::nullopt;
    const auto fit = stats::find_sparse_effects(model.observations, model.shared, model.candidates);

    CauseReport report{.scatter_cents = fit.scatter,
                       .degrees_of_freedom = fit.degrees_of_freedom,
                       .steps_used = static_cast<int>(model.observations.size()),
                       .unclear_pedals = unclear_pedals(layout, model)};
    for (std::size_t k = 0; k < model.terms.size(); ++k)
        if (model.terms[k].kind != CauseKind::string || fit.effects[k].present)
            report.effects.push_back(effect_of(model.terms[k], fit.effects[k], fit.degrees_of_freedom));
    report.faults = faults_with(report.effects, settings.certainty, 1.1, settings);
    report.suspected = faults_with(report.effects, settings.suspicion, settings.certainty, settings);
    return report;
}

} // namespace harpkeep
