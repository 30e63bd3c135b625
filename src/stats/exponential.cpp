// SPDX-License-Identifier: MIT
#include "stats/exponential.hpp"

#include "base/expects.hpp"

#include <boost/math/distributions/chi_squared.hpp>

#include <cmath>

namespace harpkeep::stats {

ConfidenceLimits poisson_mean_limits(int count, double confidence)
{
    HARPKEEP_EXPECTS(count >= 0 && confidence > 0.0 && confidence < 1.0);
    const double tail = 0.5 * (1.0 - confidence);
    ConfidenceLimits limits{.confidence = confidence};
    if (count > 0) limits.lower = 0.5 * boost::math::quantile(boost::math::chi_squared(2.0 * count), tail);
    limits.upper = 0.5 * boost::math::quantile(
                             boost::math::complement(boost::math::chi_squared(2.0 * count + 2.0), tail));
    return limits;
}

std::optional<ExponentialFit> fit_exponential(std::span<const LifeObservation> lives, double confidence)
{
    HARPKEEP_EXPECTS(well_formed(lives));
    if (lives.empty()) return std::nullopt;
    ExponentialFit fit{.evidence = evidence_of(lives)};
    const double d = fit.evidence.failures, exposure = fit.evidence.exposure;
    fit.rate = d / exposure;
    fit.log_likelihood = d > 0.0 ? d * std::log(fit.rate) - d : 0.0;
    fit.rate_limits = poisson_mean_limits(fit.evidence.failures, confidence);
    fit.rate_limits.lower /= exposure;
    fit.rate_limits.upper /= exposure;
    return fit;
}

double highest_rate_without_failures(double exposure, double confidence)
{
    HARPKEEP_EXPECTS(exposure > 0.0 && confidence > 0.0 && confidence < 1.0);
    return -std::log1p(-confidence) / exposure;
}

} // namespace harpkeep::stats
