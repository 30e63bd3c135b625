// SPDX-License-Identifier: MIT
#include "reason/forecast.hpp"

#include "base/expects.hpp"
#include "reason/drift_model.hpp"
#include "stats/quantiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace harpkeep {

namespace {

/// A root of a covariance matrix that may have lost its last digits: root * root' = covariance.
Eigen::MatrixXd root_of(const Eigen::MatrixXd& covariance)
{
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(covariance);
    return eigen.eigenvectors() * eigen.eigenvalues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
}

/// Standard normal numbers, the same on every machine.
Eigen::MatrixXd normal_numbers(Eigen::Index rows, Eigen::Index columns, std::uint64_t seed)
{
    std::mt19937_64 random(seed);
    Eigen::MatrixXd numbers(rows, columns);
    for (Eigen::Index j = 0; j < columns; ++j)
        for (Eigen::Index i = 0; i < rows; ++i)
            numbers(i, j) = stats::normal_quantile((static_cast<double>(random() >> 11) + 0.5) * 0x1.0p-53);
    return numbers;
}

std::optional<ForecastGap> gap_of(const StepDrift& drift, int today, const ForecastSettings& settings)
{
    const int span_days = drift.last_day - drift.first_day;
    if (drift.checks >= settings.least_checks && span_days >= settings.least_span_days) return std::nullopt;
    return ForecastGap{.checks = drift.checks,
                       .span_days = span_days,
                       .checks_wanted = std::max(1, settings.least_checks - drift.checks),
                       .earliest_day = std::max(today, drift.first_day + settings.least_span_days)};
}

std::optional<int> month_reaching(const std::vector<double>& left_by_month, double probability)
{
    for (std::size_t month = 0; month < left_by_month.size(); ++month)
        if (left_by_month[month] >= probability) return static_cast<int>(month) + 1;
    return std::nullopt;
}

/// Normal numbers for the futures of any step of a fit: rows are months from today on, columns futures.
Eigen::MatrixXd numbers_for(const DriftFit& fit, const ForecastSettings& settings)
{
    HARPKEEP_EXPECTS(settings.months > 0 && settings.paths > 0);
    const auto draws = static_cast<Eigen::Index>(fit.plausible.size());
    return normal_numbers(settings.months + 1, std::max<Eigen::Index>(1, settings.paths / draws) * draws,
                          settings.seed);
}

/// Futures of one step at the moments, one in each column, spread evenly over all plausible parameters.
Eigen::MatrixXd futures_of(const DriftFit& fit, std::size_t step, std::span<const DriftMoment> moments,
                           const Eigen::MatrixXd& normal)
{
    const auto draws = static_cast<Eigen::Index>(fit.plausible.size());
    const Eigen::Index each = normal.cols() / draws;
    Eigen::MatrixXd futures(normal.rows(), normal.cols());
    for (Eigen::Index draw = 0; draw < draws; ++draw) {
        const auto posterior =
            drift_posterior(fit, step, fit.plausible[static_cast<std::size_t>(draw)], moments);
        futures.middleCols(draw * each, each) =
            (root_of(posterior.covariance) * normal.middleCols(draw * each, each)).colwise() + posterior.mean;
    }
    return futures;
}

/// Counts futures by the month in which they first stand out of tolerance.
void count_futures(LeavingForecast& forecast, const Eigen::MatrixXd& futures)
{
    const auto months = static_cast<std::size_t>(futures.rows());
    std::vector<int> left(months, 0);
    int leaving = 0;
    int narrow = 0;
    for (Eigen::Index path = 0; path < futures.cols(); ++path) {
        for (std::size_t month = 0; month < months; ++month) {
            const double cents = futures(static_cast<Eigen::Index>(month), path);
            if (cents >= forecast.tolerance.lower && cents <= forecast.tolerance.upper) continue;
            ++left[month];
            ++leaving;
            narrow += cents < forecast.tolerance.lower;
            break;
        }
    }
    const auto paths = static_cast<double>(futures.cols());
    int so_far = left[0]; // row 0 is today
    for (std::size_t month = 1; month < months; ++month) {
        so_far += left[month];
        forecast.left_by_month.push_back(so_far / paths);
    }
    forecast.low_side = leaving > 0 ? static_cast<double>(narrow) / leaving : 0.0;
}

LeavingForecast forecast_with(const DriftFit& fit, std::size_t step, int today,
                              const ToleranceBand& tolerance, const ForecastSettings& settings,
                              const Eigen::MatrixXd& normal)
{
    HARPKEEP_EXPECTS(step < fit.steps.size());
    const auto& drift = fit.steps[step];
    LeavingForecast forecast{.place = drift.place,
                             .step = drift.step,
                             .tolerance = tolerance,
                             .trend_cents_per_year = drift.trend_cents_per_year,
                             .checks = drift.checks,
                             .span_days = drift.last_day - drift.first_day,
                             .gap = gap_of(drift, today, settings)};
    std::vector<DriftMoment> moments;
    for (int month = 0; month <= settings.months; ++month)
        moments.push_back({day_of_month_end(today, month), 0.0});
    forecast.now = drift_curve(fit, step, std::array{today}).front();
    forecast.out_now =
        1.0 - conformance_probability({forecast.now.cents, forecast.now.uncertainty_cents}, tolerance);
    if (forecast.gap) return forecast;
    count_futures(forecast, futures_of(fit, step, moments, normal));
    forecast.early_month = month_reaching(forecast.left_by_month, 0.1);
    forecast.middle_month = month_reaching(forecast.left_by_month, 0.5);
    forecast.late_month = month_reaching(forecast.left_by_month, 0.9);
    return forecast;
}

} // namespace

int day_of_month_end(int today, int month)
{
    return today + static_cast<int>(std::lround(month * days_in_year / 12.0));
}

LeavingForecast forecast_leaving(const DriftFit& fit, std::size_t step, int today,
                                 const ToleranceBand& tolerance, const ForecastSettings& settings)
{
    return forecast_with(fit, step, today, tolerance, settings, numbers_for(fit, settings));
}

std::vector<LeavingForecast> forecast_harp(const DriftFit& fit, int today,
                                           const ToleranceSettings& tolerances,
                                           const ForecastSettings& settings)
{
    const auto normal = numbers_for(fit, settings); // the same for all steps: drawing them takes the longest
    std::vector<LeavingForecast> forecasts;
    for (std::size_t step = 0; step < fit.steps.size(); ++step)
        forecasts.push_back(forecast_with(
            fit, step, today, tolerance_of(tolerances, fit.steps[step].place, fit.steps[step].step), settings,
            normal));
    const auto area = [](const LeavingForecast& forecast) { // larger: leaves sooner
        double sum = 0.0;
        for (const double probability : forecast.left_by_month) sum += probability;
        return sum;
    };
    std::stable_sort(forecasts.begin(), forecasts.end(),
                     [&](const LeavingForecast& a, const LeavingForecast& b) {
                         if (a.gap.has_value() != b.gap.has_value()) return !a.gap.has_value();
                         return area(a) > area(b);
                     });
    return forecasts;
}

} // namespace harpkeep
