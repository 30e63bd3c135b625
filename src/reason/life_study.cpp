// SPDX-License-Identifier: MIT
#include "reason/life_study.hpp"

#include "base/expects.hpp"
#include "stats/exponential.hpp"
#include "stats/lognormal.hpp"

#include <cmath>

namespace harpkeep {

namespace {

std::optional<OwnFit> own_fit(std::span<const stats::LifeObservation> lives,
                              const LifeStudySettings& settings)
{
    if (stats::evidence_of(lives).failures < settings.least_breaks_for_own_fit) return std::nullopt;
    const auto fit = stats::fit_weibull(lives);
    if (!fit) return std::nullopt;
    OwnFit own{.fit = *fit,
               .shape = stats::weibull_shape_limits(lives, *fit, settings.confidence),
               .median_days = stats::weibull_quantile_limits(lives, *fit, 0.5, settings.confidence),
               .lognormal_excess = std::nullopt};
    if (const auto lognormal = stats::fit_lognormal(lives))
        own.lognormal_excess =
            stats::akaike(lognormal->log_likelihood, 2) - stats::akaike(fit->log_likelihood, 2);
    return own;
}

GroupLife studied_alone(const LifeGroup& group, const LifeStudySettings& settings)
{
    GroupLife life{.name = group.name,
                   .evidence = stats::evidence_of(group.lives),
                   .curve = stats::kaplan_meier(group.lives)};
    life.observed_median_days =
        stats::life_quantile(life.curve, 0.5, stats::SurvivalScale::log_log, settings.confidence);
    life.own = own_fit(group.lives, settings);
    if (life.evidence.failures == 0)
        life.highest_breaks_per_year =
            days_per_year * stats::highest_rate_without_failures(life.evidence.exposure, settings.confidence);
    return life;
}

} // namespace

LifeStudy study_lives(std::span<const ObservedString> strings, const LifeStudySettings& settings)
{
    LifeStudy study{.grouping = settings.grouping};
    std::vector<std::vector<stats::LifeObservation>> lives;
    for (auto& group : grouped(strings, settings.grouping)) {
        study.groups.push_back(studied_alone(group, settings));
        lives.push_back(std::move(group.lives));
    }
    study.difference = stats::log_rank(lives);
    const auto pooled = stats::pool_lives(lives, settings.pooling);
    if (!pooled) {
        for (const auto& group : study.groups) {
            study.total.observations += group.evidence.observations;
            study.total.exposure += group.evidence.exposure;
        }
        study.silent = pooled.error();
        return study;
    }
    study.total = pooled->total;
    study.shape = stats::pooled_shape(*pooled, settings.confidence);
    for (std::size_t g = 0; g < study.groups.size(); ++g) {
        study.groups[g].median_days = stats::pooled_quantile(*pooled, g, 0.5, settings.confidence);
        study.groups[g].breaks_in_year =
            stats::pooled_failure_within(*pooled, g, 0.0, days_per_year, settings.confidence);
    }
    return study;
}

EvidenceNeed evidence_needed(int breaks_seen, double calendar_years, double factor)
{
    HARPKEEP_EXPECTS(breaks_seen >= 0 && calendar_years > 0.0 && factor > 1.0);
    constexpr double two_sided_95 = 1.959963984540054;
    const double ratio = two_sided_95 / std::log(factor);
    EvidenceNeed need{.breaks_seen = breaks_seen,
                      .breaks_wanted = static_cast<int>(std::ceil(ratio * ratio))};
    if (breaks_seen > 0)
        need.years_to_wait = std::max(0.0, (need.breaks_wanted - breaks_seen) * calendar_years / breaks_seen);
    return need;
}

} // namespace harpkeep
