// SPDX-License-Identifier: MIT
#include "reason/conformity.hpp"

#include "base/expects.hpp"
#include "stats/quantiles.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

double conformance_probability(const Measured& measured, const ToleranceBand& tolerance)
{
    HARPKEEP_EXPECTS(measured.uncertainty > 0.0);
    HARPKEEP_EXPECTS(tolerance.lower < tolerance.upper);
    const auto below = [&](double limit) {
        if (std::isinf(limit)) return limit > 0.0 ? 1.0 : 0.0;
        return stats::student_probability((limit - measured.value) / measured.uncertainty,
                                          measured.degrees_of_freedom);
    };
    return below(tolerance.upper) - below(tolerance.lower);
}

double guard_band(const Measured& measured, const DecisionRule& rule)
{
    HARPKEEP_EXPECTS(rule.confidence >= 0.5 && rule.confidence < 1.0);
    const double factor = rule.use_degrees_of_freedom
                              ? stats::student_quantile(rule.confidence, measured.degrees_of_freedom)
                              : stats::normal_quantile(rule.confidence);
    return factor * measured.uncertainty;
}

Conformity decide(const Measured& measured, const ToleranceBand& tolerance, const DecisionRule& rule)
{
    HARPKEEP_EXPECTS(tolerance.lower < tolerance.upper);
    const double guard = guard_band(measured, rule);
    if (measured.value >= tolerance.lower + guard && measured.value <= tolerance.upper - guard)
        return Conformity::within;
    if (measured.value < tolerance.lower - guard || measured.value > tolerance.upper + guard)
        return Conformity::out;
    return Conformity::not_proven;
}

double deciding_uncertainty(const Measured& measured, const ToleranceBand& tolerance,
                            const DecisionRule& rule)
{
    const double distance =
        std::min(std::abs(measured.value - tolerance.lower), std::abs(tolerance.upper - measured.value));
    const double factor = stats::normal_quantile(rule.confidence);
    return factor > 0.0 ? distance / factor : std::numeric_limits<double>::infinity();
}

ConformityRisks conformity_risks(const Measured& production, const ToleranceBand& tolerance,
                                 const ToleranceBand& acceptance, double measuring_uncertainty)
{
    HARPKEEP_EXPECTS(production.uncertainty > 0.0 && measuring_uncertainty > 0.0);
    HARPKEEP_EXPECTS(tolerance.lower < tolerance.upper && acceptance.lower < acceptance.upper);
    const auto density = [&](double true_value) {
        const double z = (true_value - production.value) / production.uncertainty;
        return std::exp(-0.5 * z * z) / (production.uncertainty * std::sqrt(2.0 * std::numbers::pi));
    };
    const auto accepted = [&](double true_value) {
        return conformance_probability({true_value, measuring_uncertainty}, acceptance);
    };
    // Ten standard deviations hold all but 1e-23 of a production.
    const double first = production.value - 10.0 * production.uncertainty;
    const double last = production.value + 10.0 * production.uncertainty;
    const auto integral = [](auto integrand, double from, double to) {
        if (!(from < to)) return 0.0;
        return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(integrand, from, to, 15, 1e-10);
    };
    const auto accepted_density = [&](double x) { return density(x) * accepted(x); };
    const auto rejected_density = [&](double x) { return density(x) * (1.0 - accepted(x)); };
    const double lower = std::clamp(tolerance.lower, first, last);
    const double upper = std::clamp(tolerance.upper, first, last);
    return {.conforming_share = integral(density, lower, upper),
            .consumers_risk =
                integral(accepted_density, first, lower) + integral(accepted_density, upper, last),
            .producers_risk = integral(rejected_density, lower, upper)};
}

} // namespace harpkeep
