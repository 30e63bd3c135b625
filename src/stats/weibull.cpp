// SPDX-License-Identifier: MIT
#include "stats/weibull.hpp"

#include "base/expects.hpp"
#include "stats/profile_likelihood.hpp"
#include "stats/weibull_profile.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>

namespace harpkeep::stats {

namespace {

// Shapes looked at: lives that fail at 0.02 or 200 belong to no string.
const double lowest_log_shape = std::log(0.02);
const double highest_log_shape = std::log(200.0);
constexpr int shape_nodes = 93; // a step of 10 %

/// Log-likelihood at the best scale for this shape.
double profile_over_scale(const WeibullSums& sums, double log_shape)
{
    const double shape = std::exp(log_shape);
    return sums.log_likelihood(shape, std::log(sums.failures() / sums.power_sum(shape)));
}

/// All failures at one age that nothing outlived: the likelihood grows with the shape without end.
bool one_age_only(std::span<const LifeObservation> lives)
{
    double first = std::numeric_limits<double>::infinity(), longest = 0.0;
    for (const auto& life : lives) {
        if (life.failed) first = std::min(first, life.exit);
        longest = std::max(longest, life.exit);
    }
    return first == longest;
}

/// Root of the score d/k + sum log t - d W'/W near the best node.
double refined_shape(const WeibullSums& sums, double log_shape)
{
    const auto score = [&](double x) {
        const double shape = std::exp(x);
        return sums.failures() * (1.0 / shape - sums.power_sum_slope(shape) / sums.power_sum(shape)) +
               sums.log_failure_ages();
    };
    const double reach = 1e-4; // the scan's refinement is far closer than that
    const double low = log_shape - reach, high = log_shape + reach;
    if (score(low) * score(high) >= 0.0) return log_shape;
    std::uintmax_t iterations = 100;
    const auto bracket = boost::math::tools::toms748_solve(
        score, low, high, boost::math::tools::eps_tolerance<double>(50), iterations);
    return 0.5 * (bracket.first + bracket.second);
}

/// Standard errors of log shape and log scale from the second derivatives of the log-likelihood.
void add_standard_errors(WeibullFit& fit, const WeibullSums& sums)
{
    const double k = fit.life.shape, d = sums.failures();
    const double log_rate = -k * std::log(fit.life.scale / sums.unit());
    const double rate = std::exp(log_rate);
    const double w = sums.power_sum(k), w1 = sums.power_sum_slope(k), w2 = sums.power_sum_curvature(k);
    // in (log k, log rate), at the maximum: information of l = d log k + d log rate + (k - 1) sum log t -
    // rate W
    const double shape_shape = -k * sums.log_failure_ages() + rate * (k * w1 + k * k * w2);
    const double shape_rate = rate * k * w1;
    const double rate_rate = rate * w;
    const double determinant = shape_shape * rate_rate - shape_rate * shape_rate;
    const double var_shape = rate_rate / determinant;
    const double var_rate = shape_shape / determinant;
    const double covariance = -shape_rate / determinant;
    // log scale = log unit - log rate / k
    const double by_shape = log_rate / k, by_rate = -1.0 / k;
    fit.log_shape_error = std::sqrt(var_shape);
    fit.log_scale_error = std::sqrt(by_shape * by_shape * var_shape + by_rate * by_rate * var_rate +
                                    2.0 * by_shape * by_rate * covariance);
    HARPKEEP_EXPECTS(d > 0.0);
}

/// Limits of anything that fixes the rate once the shape is known. `log_rate` gives it, at a value of the
/// parameter on a scale over the whole line and a log shape.
ConfidenceLimits limits_of(const WeibullSums& sums, const WeibullFit& fit, double estimate, double confidence,
                           const std::function<double(double, double)>& log_rate)
{
    const double centre = std::log(fit.life.shape);
    const double low = std::max(lowest_log_shape, centre - 3.0),
                 high = std::min(highest_log_shape, centre + 3.0);
    const auto profile = [&](double parameter) {
        return highest(
                   [&](double log_shape) {
                       return sums.log_likelihood(std::exp(log_shape), log_rate(parameter, log_shape));
                   },
                   low, high, 41)
            .value;
    };
    const double step = 0.5 / std::sqrt(static_cast<double>(sums.failures()));
    return profile_limits(profile, estimate, fit.log_likelihood, confidence, step, 60.0);
}

/// log((x + d)^k - x^k), the hazard between two ages in units of the rate; 0 < d.
double log_power_difference(double start, double duration, double shape)
{
    const double end = shape * std::log(start + duration);
    if (start <= 0.0) return end;
    return end + std::log(-std::expm1(shape * std::log(start / (start + duration))));
}

} // namespace

std::string_view no_fit_reason(NoFit reason)
{
    switch (reason) {
    case NoFit::no_failures:
        return "nothing has failed yet";
    case NoFit::one_age_only:
        return "all failures came at one age and nothing outlived it";
    case NoFit::no_maximum:
        return "the likelihood has no highest point: too few failures for late entries this late";
    }
    return "";
}

double weibull_log_likelihood(std::span<const LifeObservation> lives, const WeibullLife& life)
{
    const WeibullSums sums{lives};
    return sums.log_likelihood(life.shape, -life.shape * std::log(life.scale / sums.unit()));
}

Fitted<WeibullFit> fit_weibull(std::span<const LifeObservation> lives)
{
    const WeibullSums sums{lives};
    if (sums.failures() == 0) return tl::unexpected(NoFit::no_failures);
    if (one_age_only(lives)) return tl::unexpected(NoFit::one_age_only);
    const auto peak = highest([&](double log_shape) { return profile_over_scale(sums, log_shape); },
                              lowest_log_shape, highest_log_shape, shape_nodes);
    if (peak.on_edge) return tl::unexpected(NoFit::no_maximum);

    const double shape = std::exp(refined_shape(sums, peak.at));
    const double log_rate = std::log(sums.failures() / sums.power_sum(shape));
    WeibullFit fit{.life = {.shape = shape, .scale = sums.unit() * std::exp(-log_rate / shape)},
                   .log_likelihood = sums.log_likelihood(shape, log_rate),
                   .evidence = evidence_of(lives)};
    add_standard_errors(fit, sums);
    return fit;
}

ConfidenceLimits weibull_shape_limits(std::span<const LifeObservation> lives, const WeibullFit& fit,
                                      double confidence)
{
    const WeibullSums sums{lives};
    auto limits = profile_limits([&](double log_shape) { return profile_over_scale(sums, log_shape); },
                                 std::log(fit.life.shape), fit.log_likelihood, confidence,
                                 0.5 / std::sqrt(static_cast<double>(sums.failures())), 8.0);
    limits.lower = std::exp(limits.lower);
    limits.upper = std::exp(limits.upper);
    return limits;
}

ConfidenceLimits weibull_quantile_limits(std::span<const LifeObservation> lives, const WeibullFit& fit,
                                         double share, double confidence)
{
    HARPKEEP_EXPECTS(share > 0.0 && share < 1.0);
    const WeibullSums sums{lives};
    const double log_hazard = std::log(-std::log1p(-share)); // rate * (t / unit)^k at the quantile t
    const double estimate = std::log(weibull_quantile(fit.life, share) / sums.unit());
    auto limits = limits_of(sums, fit, estimate, confidence, [log_hazard](double log_time, double log_shape) {
        return log_hazard - std::exp(log_shape) * log_time;
    });
    limits.lower = sums.unit() * std::exp(limits.lower);
    limits.upper = sums.unit() * std::exp(limits.upper);
    return limits;
}

ConfidenceLimits weibull_failure_limits(std::span<const LifeObservation> lives, const WeibullFit& fit,
                                        double age, double duration, double confidence)
{
    HARPKEEP_EXPECTS(age >= 0.0 && duration > 0.0);
    const WeibullSums sums{lives};
    const double start = age / sums.unit(), length = duration / sums.unit();
    const auto log_power = [&](double log_shape) {
        return log_power_difference(start, length, std::exp(log_shape));
    };
    const double log_hazard =
        -fit.life.shape * std::log(fit.life.scale / sums.unit()) + log_power(std::log(fit.life.shape));
    auto limits = limits_of(sums, fit, log_hazard, confidence, [&](double parameter, double log_shape) {
        return parameter - log_power(log_shape);
    });
    limits.lower = -std::expm1(-std::exp(limits.lower));
    limits.upper = -std::expm1(-std::exp(limits.upper));
    return limits;
}

Fitted<CommonShapeFit> fit_weibull_common_shape(std::span<const std::vector<LifeObservation>> groups)
{
    std::vector<LifeObservation> all;
    for (const auto& group : groups) all.insert(all.end(), group.begin(), group.end());
    const WeibullSums whole{all};
    if (whole.failures() == 0) return tl::unexpected(NoFit::no_failures);
    if (one_age_only(all)) return tl::unexpected(NoFit::one_age_only);
    std::vector<WeibullSums> sums;
    for (const auto& group : groups) sums.emplace_back(group, whole.unit());

    const auto profile = [&](double log_shape) {
        const double shape = std::exp(log_shape);
        double total = 0.0;
        for (const auto& group : sums) // a group without failures is best at rate 0, and adds nothing
            if (group.failures() > 0)
                total += group.log_likelihood(shape, std::log(group.failures() / group.power_sum(shape)));
        return total;
    };
    const auto peak = highest(profile, lowest_log_shape, highest_log_shape, shape_nodes);
    if (peak.on_edge) return tl::unexpected(NoFit::no_maximum);
    CommonShapeFit fit{.shape = std::exp(peak.at), .scales = {}, .log_likelihood = peak.value};
    for (const auto& group : sums)
        fit.scales.push_back(
            group.failures() == 0
                ? std::numeric_limits<double>::infinity()
                : whole.unit() * std::pow(group.power_sum(fit.shape) / group.failures(), 1.0 / fit.shape));
    return fit;
}

} // namespace harpkeep::stats
