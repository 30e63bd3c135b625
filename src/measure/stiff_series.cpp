// SPDX-License-Identifier: MIT
#include "measure/stiff_series.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double log_b_prior_sd = 1.1; // ln 3
constexpr double student_freedom = 4.0;
constexpr int rounds = 25;
constexpr double least_scatter_cents = 1e-5; // keeps weights finite when every partial lies on the series

/// Cents that stiffness adds to partial k against partial 1.
double stretch_cents(double b, double k)
{
    return 0.5 * cents_per_neper * (std::log1p(b * k * k) - std::log1p(b));
}

double stretch_slope(double b, double k) // derivative to ln B
{
    return 0.5 * cents_per_neper * (b * k * k / (1.0 + b * k * k) - b / (1.0 + b));
}

struct Solution {
    double first_log = 0.0; ///< ln f1
    double log_b = 0.0;
    double variance = 0.0; ///< of f1, cents^2
};

} // namespace

double StiffSeries::partial_hz(int number) const
{
    return number * fundamental_hz * std::sqrt(1.0 + inharmonicity * number * number);
}

SeriesFit fit_series(std::span<const SeriesPoint> points, double typical_b)
{
    HARPKEEP_EXPECTS(!points.empty() && typical_b > 0.0);
    const std::size_t n = points.size();
    Solution at{.first_log = 0.0, .log_b = std::log(typical_b)};
    {
        const auto best = std::min_element(points.begin(), points.end(), [](const auto& a, const auto& b) {
            return a.variance_cents2 < b.variance_cents2;
        });
        at.first_log = std::log(best->frequency_hz / best->number) -
                       stretch_cents(typical_b, best->number) / cents_per_neper;
    }
    double scatter2 = least_scatter_cents * least_scatter_cents;
    std::vector<double> residual(n), trust(n, 1.0);
    for (int round = 0; round < rounds; ++round) {
        const double b = std::exp(at.log_b);
        double a11 = 0, a12 = 0, a22 = 1.0 / (log_b_prior_sd * log_b_prior_sd);
        double r1 = 0, r2 = (std::log(typical_b) - at.log_b) * a22;
        for (std::size_t i = 0; i < n; ++i) {
            const double k = points[i].number;
            residual[i] =
                cents_per_neper * (std::log(points[i].frequency_hz / k) - at.first_log) - stretch_cents(b, k);
            const double variance = points[i].variance_cents2 + scatter2;
            trust[i] = (student_freedom + 1.0) / (student_freedom + residual[i] * residual[i] / variance);
            const double w = std::min(1.0, trust[i]) / variance, slope = stretch_slope(b, k);
            a11 += w, a12 += w * slope, a22 += w * slope * slope;
            r1 += w * residual[i], r2 += w * slope * residual[i];
        }
        const double determinant = a11 * a22 - a12 * a12;
        const double d1 = (r1 * a22 - r2 * a12) / determinant;
        const double d2 = (r2 * a11 - r1 * a12) / determinant;
        at.first_log += d1 / cents_per_neper;
        at.log_b = std::clamp(at.log_b + std::clamp(d2, -1.0, 1.0), std::log(1e-7), std::log(0.05));
        at.variance = a22 / determinant;

        // Method of moments: what the residuals hold beyond the noise, for the freedom they have.
        if (n > 2) {
            double numerator = 0.0, denominator = 0.0;
            for (std::size_t i = 0; i < n; ++i) {
                const double w = std::min(1.0, trust[i]) / (points[i].variance_cents2 + scatter2);
                numerator += w * (residual[i] * residual[i] - points[i].variance_cents2);
                denominator += w;
            }
            const double freedom = static_cast<double>(n) / static_cast<double>(n - 2 + (n == 3 ? 1 : 0));
            const double found =
                std::max(numerator / denominator * freedom, least_scatter_cents * least_scatter_cents);
            scatter2 = 0.5 * (scatter2 + found);
        }
    }
    const double b = std::exp(at.log_b);
    SeriesFit fit;
    fit.first_partial_hz = std::exp(at.first_log);
    fit.series = {fit.first_partial_hz / std::sqrt(1.0 + b), b};
    fit.variance_cents2 = at.variance;
    fit.scatter_cents = std::sqrt(scatter2);
    fit.degrees_of_freedom = std::max(1.0, static_cast<double>(n) - 2.0);
    for (std::size_t i = 0; i < n; ++i) trust[i] = std::min(1.0, trust[i]);
    fit.residual_cents = residual;
    fit.trust = trust;
    return fit;
}

} // namespace harpkeep
