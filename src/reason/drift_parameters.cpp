// SPDX-License-Identifier: MIT
#include "reason/drift_parameters.hpp"

#include "reason/drift_model.hpp"
#include "stats/quantiles.hpp"

#include <boost/math/tools/minima.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <random>

namespace harpkeep {

namespace {

/// A parameter that all steps share: its prior is log-normal about `usual`. Own choice, weak.
struct SharedParameter {
    double DriftParameters::*member;
    double usual;
    double log_spread;
};

constexpr SharedParameter season{&DriftParameters::season_cents, 0.5, 0.8};
constexpr SharedParameter humidity{&DriftParameters::humidity_cents_per_percent, 0.05, 1.0};
constexpr std::array<SharedParameter, 3> always{{
    {&DriftParameters::check_scatter_cents, 0.3, 0.7},
    {&DriftParameters::wander_cents, 0.7, 0.8},
    {&DriftParameters::trend_spread_cents, 1.0, 0.8},
}};

constexpr double mean_trend_deviation = 2.0; // prior of the mean trend, cents a year; own choice

double square(double x)
{
    return x * x;
}

std::vector<SharedParameter> open_parameters(const DriftFit& fit)
{
    std::vector<SharedParameter> open(always.begin(), always.end());
    if (fit.season_told) open.push_back(season);
    if (fit.parameters.humidity_cents_per_percent > 0.0) open.push_back(humidity);
    return open;
}

/// Posterior of the mean trend of one kind of step: information and pull, summed over the steps.
struct TrendSums {
    double information = 1.0 / square(mean_trend_deviation);
    double pull = 0.0;
};

struct Evaluation {
    double cost = 0.0; ///< minus log posterior
    std::array<TrendSums, 2> trends;
};

Evaluation evaluate(const DriftFit& fit, const std::vector<SharedParameter>& open, DriftParameters parameters)
{
    parameters.lower_trend_cents = parameters.upper_trend_cents = 0.0; // integrated out below
    Evaluation evaluation;
    for (std::size_t step = 0; step < fit.histories.size(); ++step) {
        const auto seen = seen_step(fit, step, parameters);
        Eigen::VectorXd years(seen.rest.size());
        for (Eigen::Index i = 0; i < years.size(); ++i)
            years(i) =
                (seen.moments[static_cast<std::size_t>(i)].day - seen.design.origin_day) / days_in_year;
        const Eigen::VectorXd weighted = seen.factor.solve(seen.rest);
        evaluation.cost +=
            seen.factor.matrixLLT().diagonal().array().log().sum() + 0.5 * seen.rest.dot(weighted);
        auto& sums = evaluation.trends[static_cast<std::size_t>(fit.histories[step].step)];
        sums.information += years.dot(seen.factor.solve(years));
        sums.pull += years.dot(weighted);
    }
    for (const auto& sums : evaluation.trends)
        evaluation.cost += 0.5 * std::log(sums.information) - 0.5 * square(sums.pull) / sums.information;
    for (const auto& parameter : open)
        evaluation.cost +=
            0.5 * square(std::log(parameters.*parameter.member / parameter.usual) / parameter.log_spread);
    return evaluation;
}

DriftParameters with_logarithms(DriftParameters parameters, const std::vector<SharedParameter>& open,
                                const Eigen::VectorXd& logarithms)
{
    for (std::size_t i = 0; i < open.size(); ++i)
        parameters.*open[i].member = std::exp(logarithms(static_cast<Eigen::Index>(i)));
    return parameters;
}

Eigen::VectorXd logarithms_of(const DriftParameters& parameters, const std::vector<SharedParameter>& open)
{
    Eigen::VectorXd logarithms(static_cast<Eigen::Index>(open.size()));
    for (std::size_t i = 0; i < open.size(); ++i)
        logarithms(static_cast<Eigen::Index>(i)) = std::log(parameters.*open[i].member);
    return logarithms;
}

/// Curvature of the cost about `middle` by differences.
Eigen::MatrixXd curvature(const DriftFit& fit, const std::vector<SharedParameter>& open,
                          const Eigen::VectorXd& middle)
{
    constexpr double reach = 0.25; // of a logarithm: wide against rounding, narrow against the spreads
    const auto cost = [&](const Eigen::VectorXd& logarithms) {
        return evaluate(fit, open, with_logarithms(fit.parameters, open, logarithms)).cost;
    };
    const auto count = middle.size();
    Eigen::MatrixXd second(count, count);
    for (Eigen::Index i = 0; i < count; ++i)
        for (Eigen::Index j = 0; j <= i; ++j) {
            const Eigen::VectorXd a = reach * Eigen::VectorXd::Unit(count, i);
            const Eigen::VectorXd b = reach * Eigen::VectorXd::Unit(count, j);
            second(i, j) = second(j, i) =
                (cost(middle + a + b) - cost(middle + a - b) - cost(middle - a + b) + cost(middle - a - b)) /
                (4.0 * reach * reach);
        }
    return second;
}

} // namespace

void improve_drift_parameters(DriftFit& fit)
{
    constexpr int most_rounds = 8;
    const auto open = open_parameters(fit);
    double last = std::numeric_limits<double>::infinity();
    for (int round = 0; round < most_rounds; ++round) {
        double cost = last;
        for (const auto& parameter : open) {
            double& value = fit.parameters.*parameter.member;
            const auto at = [&](double logarithm) {
                value = std::exp(logarithm);
                return evaluate(fit, open, fit.parameters).cost;
            };
            const double middle = std::log(value);
            constexpr double reach = 1.5; // a factor 4.5 either way in a round
            constexpr int bits = 8;       // a hundredth: far finer than the data fix it
            const auto best = boost::math::tools::brent_find_minima(at, middle - reach, middle + reach, bits);
            value = std::exp(best.first);
            cost = best.second;
        }
        if (last - cost < 1e-2) break; // log posterior: no set is to be told from another
        last = cost;
    }
    const auto trends = evaluate(fit, open, fit.parameters).trends;
    fit.parameters.lower_trend_cents = trends[0].pull / trends[0].information;
    fit.parameters.upper_trend_cents = trends[1].pull / trends[1].information;
}

void draw_plausible_parameters(DriftFit& fit)
{
    constexpr int draws = 20;
    const auto open = open_parameters(fit);
    const Eigen::VectorXd middle = logarithms_of(fit.parameters, open);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(curvature(fit, open, middle));
    // The priors alone give a curvature of at least 1 / spread^2 = 1; less is error of the approximation.
    const Eigen::MatrixXd root =
        eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(1.0).cwiseSqrt().cwiseInverse().asDiagonal();

    std::mt19937_64 random(1); // fixed: the same histories give the same figures
    const auto normal = [&random] {
        return stats::normal_quantile((static_cast<double>(random() >> 11) + 0.5) * 0x1.0p-53);
    };
    fit.plausible.clear();
    Eigen::VectorXd step(middle.size());
    for (int draw = 0; draw < draws; ++draw) {
        // Drawn in pairs about the middle: the mean is then exact.
        if (draw % 2 == 0)
            for (auto& value : step) value = normal();
        else
            step = -step;
        auto parameters = with_logarithms(fit.parameters, open, middle + root * step);
        const auto trends = evaluate(fit, open, parameters).trends;
        parameters.lower_trend_cents =
            trends[0].pull / trends[0].information + normal() / std::sqrt(trends[0].information);
        parameters.upper_trend_cents =
            trends[1].pull / trends[1].information + normal() / std::sqrt(trends[1].information);
        fit.plausible.push_back(parameters);
    }
}

} // namespace harpkeep
