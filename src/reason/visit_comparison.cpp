// SPDX-License-Identifier: MIT
#include "reason/visit_comparison.hpp"

#include "base/expects.hpp"
#include "stats/false_discovery.hpp"
#include "stats/quantiles.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

namespace harpkeep {

namespace {

using StepKey = std::pair<StringPlace, Step>;

Measured measured_with_scatter(const StepError& step, double scatter_cents)
{
    return {step.error_cents, std::hypot(step.uncertainty_cents, scatter_cents)};
}

StepChange change_of(const StepError& before, const StepError& after, const ToleranceSettings& tolerances,
                     double scatter_cents)
{
    const auto a = measured_with_scatter(before, scatter_cents);
    const auto b = measured_with_scatter(after, scatter_cents);
    return {.place = before.place,
            .step = before.step,
            .before = judge(before.place, before.step, measured_from(before), tolerances),
            .after = judge(after.place, after.step, measured_from(after), tolerances),
            .moved_cents = b.value - a.value,
            .moved_uncertainty_cents = std::hypot(a.uncertainty, b.uncertainty),
            .nearer_cents = std::abs(a.value) - std::abs(b.value),
            .probability_nearer = probability_smaller_in_size(b, a)};
}

void decide_changes(std::vector<StepChange>& steps, double false_share)
{
    std::vector<double> p_values;
    for (const auto& step : steps)
        p_values.push_back(
            std::min(1.0, 2.0 * std::min(step.probability_nearer, 1.0 - step.probability_nearer)));
    const auto stands = stats::discoveries(p_values, false_share);
    for (std::size_t i = 0; i < steps.size(); ++i)
        if (stands[i])
            steps[i].change = steps[i].probability_nearer > 0.5 ? VisitChange::improved : VisitChange::worse;
}

void count(VisitComparison& comparison)
{
    double squares_before = 0.0;
    double squares_after = 0.0;
    for (const auto& step : comparison.steps) {
        comparison.improved += step.change == VisitChange::improved;
        comparison.worse += step.change == VisitChange::worse;
        comparison.unproven += step.change == VisitChange::unproven;
        comparison.out_before += step.before.conformity == Conformity::out;
        comparison.out_after += step.after.conformity == Conformity::out;
        comparison.within_before += step.before.conformity == Conformity::within;
        comparison.within_after += step.after.conformity == Conformity::within;
        squares_before += step.before.error.value * step.before.error.value;
        squares_after += step.after.error.value * step.after.error.value;
    }
    const auto steps = static_cast<double>(std::max<std::size_t>(1, comparison.steps.size()));
    comparison.typical_before_cents = std::sqrt(squares_before / steps);
    comparison.typical_after_cents = std::sqrt(squares_after / steps);
}

} // namespace

double probability_smaller_in_size(const Measured& a, const Measured& b)
{
    HARPKEEP_EXPECTS(a.uncertainty > 0.0 && b.uncertainty > 0.0);
    // Over the values of a: density times the chance that b lies outside of them.
    const auto integrand = [&](double z) {
        const double size = std::abs(a.value + z * a.uncertainty);
        const double inside = stats::normal_probability((size - b.value) / b.uncertainty) -
                              stats::normal_probability((-size - b.value) / b.uncertainty);
        return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi) * (1.0 - inside);
    };
    // The size has a corner where a is 0: the integral is split there.
    const double corner = std::clamp(-a.value / a.uncertainty, -9.0, 9.0);
    const auto part = [&](double from, double to) {
        if (!(from < to)) return 0.0;
        return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(integrand, from, to, 10, 1e-10);
    };
    return std::clamp(part(-9.0, corner) + part(corner, 9.0), 0.0, 1.0);
}

VisitComparison compare_visit(std::span<const StepError> before, std::span<const StepError> after,
                              const ToleranceSettings& tolerances, const VisitComparisonSettings& settings)
{
    std::map<StepKey, const StepError*> earlier;
    for (const auto& step : before) earlier[{step.place, step.step}] = &step;
    VisitComparison comparison;
    for (const auto& step : after) {
        const auto match = earlier.find({step.place, step.step});
        if (match == earlier.end()) {
            ++comparison.only_after;
            continue;
        }
        comparison.steps.push_back(change_of(*match->second, step, tolerances, settings.check_scatter_cents));
        earlier.erase(match);
    }
    comparison.only_before = static_cast<int>(earlier.size());
    decide_changes(comparison.steps, settings.false_share);
    count(comparison);
    std::stable_sort(
        comparison.steps.begin(), comparison.steps.end(),
        [](const StepChange& a, const StepChange& b) { return a.nearer_cents > b.nearer_cents; });
    return comparison;
}

} // namespace harpkeep
