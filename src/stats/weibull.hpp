// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <tl/expected.hpp>

#include <span>
#include <string_view>
#include <vector>

namespace harpkeep::stats {

/// Lives with hazard (shape / scale) (t / scale)^(shape - 1): shape 1 breaks by pure accident, above 1 wears
/// out, below 1 weeds out the weak when new. By the age `scale`, 63.2 % have failed.
struct WeibullLife {
    double shape = 1.0;
    double scale = 1.0;
};

[[nodiscard]] double weibull_survival(const WeibullLife& life, double age);
/// Age by which a share of all has failed.
[[nodiscard]] double weibull_quantile(const WeibullLife& life, double share);
[[nodiscard]] double weibull_mean(const WeibullLife& life);
[[nodiscard]] double weibull_standard_deviation(const WeibullLife& life);
/// Chance that one sound at `age` fails within `duration`: 1 - exp((t/s)^k - ((t + d)/s)^k).
[[nodiscard]] double weibull_failure_within(const WeibullLife& life, double age, double duration);

/// Why the observations give no fit.
enum class NoFit {
    no_failures,  ///< nothing failed: only a bound on the rate can be told
    one_age_only, ///< all failures at one age: the shape has no upper limit
    no_maximum,   ///< the likelihood has no highest point: too few failures for late entries this late
};
[[nodiscard]] std::string_view no_fit_reason(NoFit reason);
template <class T>
using Fitted = tl::expected<T, NoFit>;

/// A Weibull fit by maximum likelihood.
struct WeibullFit {
    WeibullLife life;
    double log_likelihood = 0.0;
    double log_shape_error = 0.0; ///< standard errors from the observed information
    double log_scale_error = 0.0;
    LifeEvidence evidence;
};

/// Log-likelihood: sum of log f or log S at the exits, minus log S at the entries.
[[nodiscard]] double weibull_log_likelihood(std::span<const LifeObservation> lives, const WeibullLife& life);

/// Maximum-likelihood Weibull with right censoring and late entry.
///
/// Given      well-formed observations
/// Notes      For a given shape the scale is known: scale^k = sum(exit^k - entry^k) / failures; what is left
///            is one equation for the shape. The shape comes out high when failures are few (Thoman, Bain &
///            Antle 1969, from memory): read it with its limits.
/// Accuracy   NIST 8.4.1.3 and 6-MP to 1e-5 relative; against a two-dimensional search with late entry to
///            1e-6 (tests/src/stats/weibull_test.cpp)
/// Reference  NIST/SEMATECH e-Handbook 8.4.1.3; Meeker & Escobar, Statistical Methods for Reliability Data,
///            1998, ch. 8 and 11 (from memory)
[[nodiscard]] Fitted<WeibullFit> fit_weibull(std::span<const LifeObservation> lives);

// Profile-likelihood limits of what a fit says. All demand the observations that the fit was made from.

[[nodiscard]] ConfidenceLimits weibull_shape_limits(std::span<const LifeObservation> lives,
                                                    const WeibullFit& fit, double confidence = 0.95);
/// Of the age by which a share has failed: 0.632 gives the scale, 0.5 the median.
[[nodiscard]] ConfidenceLimits weibull_quantile_limits(std::span<const LifeObservation> lives,
                                                       const WeibullFit& fit, double share,
                                                       double confidence = 0.95);
/// Of the chance that one sound at `age` fails within `duration`.
[[nodiscard]] ConfidenceLimits weibull_failure_limits(std::span<const LifeObservation> lives,
                                                      const WeibullFit& fit, double age, double duration,
                                                      double confidence = 0.95);

/// Groups with one shape and a scale each (accelerated life; as a proportional-hazards model the log ratio of
/// two groups' hazards is shape * log(scale ratio)).
struct CommonShapeFit {
    double shape = 1.0;
    std::vector<double> scales; ///< infinite for a group without failures
    double log_likelihood = 0.0;
};

/// Maximum likelihood with a common shape. Reference: the Weibull regression on a factor of R survival.
[[nodiscard]] Fitted<CommonShapeFit>
fit_weibull_common_shape(std::span<const std::vector<LifeObservation>> groups);

} // namespace harpkeep::stats
