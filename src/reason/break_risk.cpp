// SPDX-License-Identifier: MIT
#include "reason/break_risk.hpp"

#include "base/expects.hpp"

#include <algorithm>

namespace harpkeep {

std::size_t LifeModel::group_of(const StringInUse& string) const
{
    const auto name = life_group(grouping, string.harp, string.place, string.material);
    const auto found = std::find(groups.begin(), groups.end(), name);
    return found == groups.end() ? lives.unseen() : static_cast<std::size_t>(found - groups.begin());
}

stats::Fitted<LifeModel> learn_lives(std::span<const ObservedString> strings, LifeGrouping grouping,
                                     const stats::PoolingSettings& settings)
{
    LifeModel model{.grouping = grouping, .groups = {}, .lives = {}};
    std::vector<std::vector<stats::LifeObservation>> lives;
    for (auto& group : grouped(strings, grouping)) {
        model.groups.push_back(group.name);
        lives.push_back(std::move(group.lives));
    }
    auto pooled = stats::pool_lives(lives, settings);
    if (!pooled) return tl::unexpected(pooled.error());
    model.lives = *std::move(pooled);
    return model;
}

RiskReport break_risks(const LifeModel& model, std::span<const StringInUse> strings, double within_days,
                       double confidence)
{
    HARPKEEP_EXPECTS(within_days > 0.0);
    RiskReport report{.within_days = within_days, .evidence = model.lives.total};
    std::vector<double> none(model.lives.scenarios.size(), 1.0), count(model.lives.scenarios.size(), 0.0);
    for (const auto& string : strings) {
        const std::size_t group = model.group_of(string);
        const double age = string.least_age_days();
        HARPKEEP_EXPECTS(age >= 0.0);
        for (std::size_t s = 0; s < none.size(); ++s) {
            const auto& scenario = model.lives.scenarios[s];
            const double chance =
                stats::weibull_failure_within({scenario.shape, scenario.scales[group]}, age, within_days);
            none[s] *= 1.0 - chance;
            count[s] += chance;
        }
        BreakRisk risk{.string = string};
        risk.chance = stats::pooled_failure_within(model.lives, group, age, within_days, confidence);
        risk.chance_if_new = stats::pooled_failure_within(model.lives, group, 0.0, within_days, confidence);
        risk.group = life_group(model.grouping, string.harp, string.place, string.material);
        if (group != model.lives.unseen()) risk.group_evidence = model.lives.evidence[group];
        risk.age_unknown = !string.age_days.has_value();
        report.strings.push_back(std::move(risk));
    }
    for (auto& chance : none) chance = 1.0 - chance;
    report.any_break = stats::estimate_from(std::move(none), confidence);
    report.expected_breaks = stats::estimate_from(std::move(count), confidence);
    std::stable_sort(report.strings.begin(), report.strings.end(),
                     [](const auto& a, const auto& b) { return a.chance.value > b.chance.value; });
    return report;
}

} // namespace harpkeep
