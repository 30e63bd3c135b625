// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <optional>
#include <span>

namespace harpkeep::stats {

/// Lives that fail by pure accident, at the same rate whatever the age.
struct ExponentialFit {
    double rate = 0.0; ///< failures / exposure; 0 when nothing failed
    double log_likelihood = 0.0;
    ConfidenceLimits rate_limits; ///< exact in the Poisson sense, also without any failure (then from 0)
    LifeEvidence evidence;
};

/// Maximum-likelihood rate with right censoring and late entry.
///
/// Returns    nothing without observations. Limits: chi-squared quantiles with 2 d degrees of freedom below
///            and 2 d + 2 above, over twice the exposure.
/// Reference  Garwood, Biometrika 28, 437 (1936) (from memory)
[[nodiscard]] std::optional<ExponentialFit> fit_exponential(std::span<const LifeObservation> lives,
                                                            double confidence = 0.95);

/// Exact limits of a Poisson mean from one count.
[[nodiscard]] ConfidenceLimits poisson_mean_limits(int count, double confidence = 0.95);

/// The highest rate that no failure at all in this exposure still allows, one-sided: -log(1 - confidence) /
/// exposure, so 3.00 / exposure at 95 %.
[[nodiscard]] double highest_rate_without_failures(double exposure, double confidence = 0.95);

} // namespace harpkeep::stats
