// SPDX-License-Identifier: MIT
#include "base/expects.hpp"
#include "stats/pooled_weibull.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace harpkeep::stats {

namespace {

/// Quantile of sorted values, linear between them.
double quantile_of(const std::vector<double>& sorted, double share)
{
    const double place = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    if (below + 1 >= sorted.size()) return sorted.back();
    const double rest = place - static_cast<double>(below);
    if (rest == 0.0) return sorted[below]; // also keeps infinite values out of the difference
    return sorted[below] + rest * (sorted[below + 1] - sorted[below]);
}

ConfidenceLimits limits_from(const std::vector<double>& sorted, double confidence)
{
    return {.lower = quantile_of(sorted, 0.5 - 0.5 * confidence),
            .upper = quantile_of(sorted, 0.5 + 0.5 * confidence),
            .confidence = confidence};
}

} // namespace

Estimate estimate_from(std::vector<double> values, double confidence)
{
    HARPKEEP_EXPECTS(!values.empty() && confidence > 0.0 && confidence < 1.0);
    const double mean =
        std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
    std::sort(values.begin(), values.end());
    return {.value = mean, .limits = limits_from(values, confidence)};
}

Estimate median_from(std::vector<double> values, double confidence)
{
    HARPKEEP_EXPECTS(!values.empty() && confidence > 0.0 && confidence < 1.0);
    std::sort(values.begin(), values.end());
    return {.value = quantile_of(values, 0.5), .limits = limits_from(values, confidence)};
}

Estimate pooled_failure_within(const PooledLives& lives, std::size_t group, double age, double duration,
                               double confidence)
{
    HARPKEEP_EXPECTS(group <= lives.unseen());
    std::vector<double> chances;
    for (const auto& scenario : lives.scenarios)
        chances.push_back(weibull_failure_within({scenario.shape, scenario.scales[group]}, age, duration));
    return estimate_from(std::move(chances), confidence);
}

double mean_failure_within(const PooledLives& lives, std::size_t group, double age, double duration)
{
    HARPKEEP_EXPECTS(group <= lives.unseen() && !lives.scenarios.empty());
    double sum = 0.0;
    for (const auto& scenario : lives.scenarios)
        sum += weibull_failure_within({scenario.shape, scenario.scales[group]}, age, duration);
    return sum / static_cast<double>(lives.scenarios.size());
}

Estimate pooled_quantile(const PooledLives& lives, std::size_t group, double share, double confidence)
{
    HARPKEEP_EXPECTS(group <= lives.unseen());
    std::vector<double> ages;
    for (const auto& scenario : lives.scenarios)
        ages.push_back(weibull_quantile({scenario.shape, scenario.scales[group]}, share));
    return median_from(std::move(ages), confidence);
}

Estimate pooled_shape(const PooledLives& lives, double confidence)
{
    std::vector<double> shapes;
    for (const auto& scenario : lives.scenarios) shapes.push_back(scenario.shape);
    return median_from(std::move(shapes), confidence);
}

} // namespace harpkeep::stats
