// SPDX-License-Identifier: MIT
#pragma once

#include "stats/weibull.hpp"

#include <span>

namespace harpkeep::stats {

/// Lives whose logarithm is normal; fitted to see how much the choice of the Weibull shape matters.
struct LognormalFit {
    double log_mean = 0.0;  ///< mean of log age
    double log_sigma = 1.0; ///< standard deviation of log age
    double log_likelihood = 0.0;
    LifeEvidence evidence;
};

/// Maximum-likelihood lognormal with right censoring and late entry.
///
/// Reference  NIST/SEMATECH e-Handbook 8.4.1.3 (its comparison by AIC)
[[nodiscard]] Fitted<LognormalFit> fit_lognormal(std::span<const LifeObservation> lives);

/// 2 * parameters - 2 * log-likelihood: the lower fits better for its freedom.
[[nodiscard]] constexpr double akaike(double log_likelihood, int parameters)
{
    return 2.0 * parameters - 2.0 * log_likelihood;
}

} // namespace harpkeep::stats
