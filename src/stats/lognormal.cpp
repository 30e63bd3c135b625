// SPDX-License-Identifier: MIT
#include "stats/lognormal.hpp"

#include "stats/profile_likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep::stats {

namespace {

/// log(1 - Phi(z)) far into the tail, where the complementary error function underflows.
double log_normal_survival(double z)
{
    if (z < 25.0) return std::log(0.5 * std::erfc(z / std::numbers::sqrt2));
    // phi(z)/z (1 - 1/z^2 + 3/z^4): relative error below 15 / z^6 = 6e-8
    const double z2 = z * z;
    return -0.5 * z2 - 0.5 * std::log(2.0 * std::numbers::pi) - std::log(z) +
           std::log1p(-1.0 / z2 + 3.0 / (z2 * z2));
}

double log_likelihood(std::span<const LifeObservation> lives, double mean, double sigma)
{
    double total = 0.0;
    for (const auto& life : lives) {
        const double log_age = std::log(life.exit);
        const double z = (log_age - mean) / sigma;
        total += life.failed
                     ? -0.5 * z * z - 0.5 * std::log(2.0 * std::numbers::pi) - std::log(sigma) - log_age
                     : log_normal_survival(z);
        if (life.entry > 0.0) total -= log_normal_survival((std::log(life.entry) - mean) / sigma);
    }
    return total;
}

} // namespace

Fitted<LognormalFit> fit_lognormal(std::span<const LifeObservation> lives)
{
    LognormalFit fit{.evidence = evidence_of(lives)};
    if (fit.evidence.failures == 0) return tl::unexpected(NoFit::no_failures);
    const auto [first, last] = std::minmax_element(
        lives.begin(), lives.end(), [](const auto& a, const auto& b) { return a.exit < b.exit; });
    if (first->exit == last->exit) return tl::unexpected(NoFit::one_age_only);

    const double low = std::log(first->exit) - 3.0, high = std::log(last->exit) + 8.0;
    const auto best_mean = [&](double log_sigma) {
        return highest([&](double mean) { return log_likelihood(lives, mean, std::exp(log_sigma)); }, low,
                       high, 41);
    };
    const auto peak = highest([&](double log_sigma) { return best_mean(log_sigma).value; }, std::log(0.02),
                              std::log(8.0), 31);
    const auto mean = best_mean(peak.at);
    if (peak.on_edge || mean.on_edge) return tl::unexpected(NoFit::no_maximum);
    fit.log_mean = mean.at;
    fit.log_sigma = std::exp(peak.at);
    fit.log_likelihood = mean.value;
    return fit;
}

} // namespace harpkeep::stats
