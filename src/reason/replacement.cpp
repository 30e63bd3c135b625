// SPDX-License-Identifier: MIT
#include "reason/replacement.hpp"

#include "base/expects.hpp"

namespace harpkeep {

namespace {

ReplacementAdvice advice_for(const BreakRisk& risk, const ReplacementSettings& settings)
{
    if (risk.chance.value < settings.least_chance) return ReplacementAdvice::leave;
    const double relief = risk.chance.value - risk.chance_if_new.value;
    return relief >= settings.least_relief * risk.chance.value ? ReplacementAdvice::replace
                                                               : ReplacementAdvice::no_help;
}

} // namespace

ReplacementPlan plan_replacements(const LifeModel& model, std::span<const StringInUse> strings,
                                  const Occasion& occasion, const ReplacementSettings& settings)
{
    HARPKEEP_EXPECTS(occasion.days_until >= 0.0 && occasion.days_long > 0.0);
    const double horizon_days = occasion.days_until + occasion.days_long;
    auto risks = break_risks(model, strings, horizon_days, settings.confidence);
    ReplacementPlan plan{.occasion = occasion, .lines = {}, .any_break_as_is = risks.any_break};
    plan.settles_too_late = occasion.days_until < settings.settling_days;
    plan.evidence = risks.evidence;

    std::vector<StringInUse> after;
    for (auto& risk : risks.strings) {
        ReplacementLine line{.relief = risk.chance.value - risk.chance_if_new.value,
                             .advice = advice_for(risk, settings)};
        after.push_back(risk.string);
        if (line.advice == ReplacementAdvice::replace) after.back().age_days = 0.0;
        line.risk = std::move(risk);
        plan.lines.push_back(std::move(line));
    }
    plan.any_break_after = break_risks(model, after, horizon_days, settings.confidence).any_break;
    return plan;
}

} // namespace harpkeep
