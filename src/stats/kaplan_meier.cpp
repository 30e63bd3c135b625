// SPDX-License-Identifier: MIT
#include "stats/kaplan_meier.hpp"

#include "base/expects.hpp"

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

namespace harpkeep::stats {

namespace {

/// Sorted times of entries, exits and failures: risk sets by counting.
struct Timeline {
    std::vector<double> entries, exits, failures;

    explicit Timeline(std::span<const LifeObservation> lives)
    {
        for (const auto& life : lives) {
            entries.push_back(life.entry);
            exits.push_back(life.exit);
            if (life.failed) failures.push_back(life.exit);
        }
        std::sort(entries.begin(), entries.end());
        std::sort(exits.begin(), exits.end());
        std::sort(failures.begin(), failures.end());
    }
    /// Those with entry < time <= exit.
    [[nodiscard]] int at_risk(double time) const
    {
        const auto entered = std::lower_bound(entries.begin(), entries.end(), time) - entries.begin();
        const auto left = std::lower_bound(exits.begin(), exits.end(), time) - exits.begin();
        return static_cast<int>(entered - left);
    }
};

double two_sided_normal(double confidence)
{
    HARPKEEP_EXPECTS(confidence > 0.0 && confidence < 1.0);
    return boost::math::quantile(boost::math::normal{}, 0.5 + 0.5 * confidence);
}

/// First time at which `level(step)` has fallen to `target`; the middle of the stretch when it lies on it.
std::optional<double>
first_at_or_below(const SurvivalCurve& curve, double target,
                  const std::function<std::optional<double>(const SurvivalStep&)>& level)
{
    // a curve that passes exactly through the target must not miss it by the rounding of its products
    constexpr double rounding = 1e-12;
    for (std::size_t i = 0; i < curve.steps.size(); ++i) {
        const auto value = level(curve.steps[i]);
        if (!value || *value > target + rounding) continue;
        if (*value < target - rounding || i + 1 == curve.steps.size()) return curve.steps[i].time;
        return 0.5 * (curve.steps[i].time + curve.steps[i + 1].time);
    }
    return std::nullopt;
}

} // namespace

SurvivalCurve kaplan_meier(std::span<const LifeObservation> lives)
{
    HARPKEEP_EXPECTS(well_formed(lives));
    const Timeline timeline{lives};
    SurvivalCurve curve{.steps = {}, .evidence = evidence_of(lives)};
    if (!timeline.exits.empty()) curve.last_exit = timeline.exits.back();

    double survival = 1.0, greenwood = 0.0;
    for (auto next = timeline.failures.begin(); next != timeline.failures.end();) {
        const double time = *next;
        const auto after = std::upper_bound(next, timeline.failures.end(), time);
        const int failed = static_cast<int>(after - next);
        const int at_risk = timeline.at_risk(time);
        survival *= 1.0 - static_cast<double>(failed) / at_risk;
        greenwood += at_risk == failed ? std::numeric_limits<double>::infinity()
                                       : static_cast<double>(failed) / at_risk / (at_risk - failed);
        curve.steps.push_back({time, at_risk, failed, survival, greenwood});
        if (at_risk == failed && time < curve.last_exit && !curve.ran_empty_at) curve.ran_empty_at = time;
        next = after;
    }
    return curve;
}

std::optional<double> survival_at(const SurvivalCurve& curve, double time)
{
    if (time > curve.last_exit) return std::nullopt;
    const auto after = std::upper_bound(curve.steps.begin(), curve.steps.end(), time,
                                        [](double t, const SurvivalStep& step) { return t < step.time; });
    return after == curve.steps.begin() ? 1.0 : std::prev(after)->survival;
}

double greenwood_error(const SurvivalStep& step)
{
    return step.survival > 0.0 ? step.survival * std::sqrt(step.greenwood_sum) : 0.0;
}

std::optional<ConfidenceLimits> survival_limits(const SurvivalStep& step, SurvivalScale scale,
                                                double confidence)
{
    if (step.survival <= 0.0) return std::nullopt;
    const double z = two_sided_normal(confidence);
    const double log_error = std::sqrt(step.greenwood_sum); // standard error of log S
    ConfidenceLimits limits{.confidence = confidence};
    switch (scale) {
    case SurvivalScale::plain:
        limits.lower = step.survival - z * step.survival * log_error;
        limits.upper = step.survival + z * step.survival * log_error;
        break;
    case SurvivalScale::log:
        limits.lower = step.survival * std::exp(-z * log_error);
        limits.upper = step.survival * std::exp(z * log_error);
        break;
    case SurvivalScale::log_log: {
        const double spread = z * log_error / std::log(step.survival); // negative
        limits.lower = std::pow(step.survival, std::exp(-spread));
        limits.upper = std::pow(step.survival, std::exp(spread));
        break;
    }
    }
    limits.lower = std::max(limits.lower, 0.0);
    limits.upper = std::min(limits.upper, 1.0);
    return limits;
}

std::optional<LifeQuantile> life_quantile(const SurvivalCurve& curve, double share, SurvivalScale scale,
                                          double confidence)
{
    HARPKEEP_EXPECTS(share > 0.0 && share < 1.0);
    const double target = 1.0 - share;
    const auto time = first_at_or_below(
        curve, target, [](const SurvivalStep& step) { return std::optional{step.survival}; });
    if (!time) return std::nullopt;
    LifeQuantile quantile{.time = *time, .lower = {}, .upper = {}, .confidence = confidence};
    quantile.lower = first_at_or_below(curve, target, [&](const SurvivalStep& step) {
        const auto limits = survival_limits(step, scale, confidence);
        return limits ? std::optional{limits->lower} : std::optional<double>{};
    });
    quantile.upper = first_at_or_below(curve, target, [&](const SurvivalStep& step) {
        const auto limits = survival_limits(step, scale, confidence);
        return limits ? std::optional{limits->upper} : std::optional<double>{};
    });
    return quantile;
}

} // namespace harpkeep::stats
