// SPDX-License-Identifier: MIT
#include "stats/regression.hpp"

#include "base/expects.hpp"
#include "stats/robust_scale.hpp"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace harpkeep::stats {

namespace {

struct Design {
    Eigen::MatrixXd regressors;
    Eigen::VectorXd values;
    Eigen::VectorXd weights;
};

Design design_of(std::span<const RegressionRow> rows)
{
    const auto count = static_cast<Eigen::Index>(rows.size());
    const auto width = rows.empty() ? 0 : static_cast<Eigen::Index>(rows.front().regressors.size());
    Design design{Eigen::MatrixXd(count, width), Eigen::VectorXd(count), Eigen::VectorXd(count)};
    for (Eigen::Index i = 0; i < count; ++i) {
        const auto& row = rows[static_cast<std::size_t>(i)];
        HARPKEEP_EXPECTS(static_cast<Eigen::Index>(row.regressors.size()) == width && row.weight >= 0.0);
        for (Eigen::Index j = 0; j < width; ++j)
            design.regressors(i, j) = row.regressors[static_cast<std::size_t>(j)];
        design.values(i) = row.value;
        design.weights(i) = row.weight;
    }
    return design;
}

std::optional<RegressionFit> fit(const Design& design, const Eigen::VectorXd& robust_weights)
{
    const Eigen::Index width = design.regressors.cols();
    const Eigen::VectorXd weights = design.weights.cwiseProduct(robust_weights);
    const double effective_count = robust_weights.sum();
    if (width == 0 || effective_count <= static_cast<double>(width)) return std::nullopt;
    const Eigen::VectorXd roots = weights.cwiseSqrt();
    const Eigen::MatrixXd scaled = roots.asDiagonal() * design.regressors;
    const Eigen::ColPivHouseholderQR<Eigen::MatrixXd> factors(scaled);
    if (factors.rank() < width) return std::nullopt;

    const Eigen::VectorXd solution = factors.solve(roots.cwiseProduct(design.values));
    const Eigen::VectorXd residuals = design.values - design.regressors * solution;
    const Eigen::MatrixXd covariance = (scaled.transpose() * scaled).inverse();
    RegressionFit result;
    result.degrees_of_freedom = effective_count - static_cast<double>(width);
    result.residual_standard_deviation =
        std::sqrt(residuals.cwiseAbs2().cwiseProduct(weights).sum() / result.degrees_of_freedom);
    for (Eigen::Index j = 0; j < width; ++j) {
        result.coefficients.push_back(solution(j));
        result.uncertainties.push_back(result.residual_standard_deviation * std::sqrt(covariance(j, j)));
    }
    result.robust_weights.assign(robust_weights.data(), robust_weights.data() + robust_weights.size());
    return result;
}

double huber_weight(double pull)
{
    constexpr double tuning = 1.345; // Huber: 95 % efficiency
    return std::abs(pull) <= tuning ? 1.0 : tuning / std::abs(pull);
}

double biweight(double pull)
{
    constexpr double tuning = 4.685; // Tukey: 95 % efficiency
    if (std::abs(pull) >= tuning) return 0.0;
    const double rest = 1.0 - (pull / tuning) * (pull / tuning);
    return rest * rest;
}

/// Residuals in robust standard deviations; nothing when most rows lie on the curve.
std::optional<Eigen::VectorXd> pulls_of(const Design& design, const RegressionFit& fitted)
{
    const Eigen::Map<const Eigen::VectorXd> solution(fitted.coefficients.data(),
                                                     static_cast<Eigen::Index>(fitted.coefficients.size()));
    Eigen::VectorXd pulls =
        (design.values - design.regressors * solution).cwiseProduct(design.weights.cwiseSqrt());
    std::vector<double> used;
    for (Eigen::Index i = 0; i < pulls.size(); ++i)
        if (design.weights(i) > 0.0) used.push_back(std::abs(pulls(i)));
    // The residuals centre on zero by construction: the median size alone is the robust scale.
    const double scale = 1.482602218505602 * median(used);
    if (!(scale > 0.0)) return std::nullopt;
    pulls /= scale;
    return pulls;
}

} // namespace

std::optional<RegressionFit> weighted_regression(std::span<const RegressionRow> rows)
{
    const Design design = design_of(rows);
    return fit(design, Eigen::VectorXd::Ones(design.values.size()));
}

std::optional<RegressionFit> robust_regression(std::span<const RegressionRow> rows)
{
    const Design design = design_of(rows);
    auto fitted = fit(design, Eigen::VectorXd::Ones(design.values.size()));
    constexpr int rounds = 30; // the weights settle to 1e-6 in ten to twenty
    for (int round = 0; fitted && round < rounds; ++round) {
        const auto pulls = pulls_of(design, *fitted);
        if (!pulls) return fitted;
        const bool opening = round < rounds / 3; // Huber's is convex: it leads to the right minimum
        const Eigen::VectorXd weights = pulls->unaryExpr(
            [opening](double pull) { return opening ? huber_weight(pull) : biweight(pull); });
        auto next = fit(design, weights);
        if (!next) return fitted;
        fitted = std::move(next);
    }
    return fitted;
}

} // namespace harpkeep::stats
