// SPDX-License-Identifier: MIT
#include "measure/stiff_series.hpp"

#include "base/expects.hpp"
#include "stats/quantiles.hpp"
#include "units/interval.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double log_b_prior_sd = 1.1; // ln 3
constexpr double student_freedom = 4.0;
// Fisher's information on the location of a Student likelihood, against a normal one of the same spread.
constexpr double widening = (student_freedom + 3.0) / (student_freedom + 1.0);
constexpr int rounds_at_first = 8;
constexpr int rounds_from_neighbour = 4; // the solution for the neighbouring scatter is near

// Sizes of scatter that are tried, ln 3 apart, and where they are expected: 0.2 cent within a factor of 9.
constexpr int scatter_count = 13;
constexpr double largest_scatter_cents = 10.0;
constexpr double scatter_step = 1.0986122886681098;
constexpr double expected_scatter_cents = 0.2;
constexpr double log_scatter_sd = 3.0;
constexpr double following_scatter_cents = 0.2;
constexpr double smallest_b = 1e-7, largest_b = 0.05;

/// Cents that stiffness adds to partial k against partial 1.
double stretch_cents(double b, double k)
{
    return 0.5 * cents_per_neper * (std::log1p(b * k * k) - std::log1p(b));
}

double stretch_slope(double b, double k) // derivative to ln B
{
    return 0.5 * cents_per_neper * (b * k * k / (1.0 + b * k * k) - b / (1.0 + b));
}

/// The fit for one size of scatter.
struct Solution {
    double series_log = 0.0; ///< ln(F sqrt(1 + B)): where the series has its first partial
    double log_b = 0.0;
    double first_log = 0.0; ///< ln f1: the first partial itself
    double variance = 0.0;  ///< of f1, cents^2
    double log_evidence = 0.0;
};

/// The measured points, turned to what the rounds need.
class SeriesProblem {
  public:
    SeriesProblem(std::span<const SeriesPoint> points, double typical_b)
        : points_(points), log_typical_b_(std::log(typical_b))
    {
        for (const auto& point : points) logs_.push_back(std::log(point.frequency_hz / point.number));
    }

    [[nodiscard]] Solution start() const
    {
        const auto best = std::min_element(points_.begin(), points_.end(), [](const auto& a, const auto& b) {
            return a.variance_cents2 < b.variance_cents2;
        });
        return {.series_log = logs_[static_cast<std::size_t>(best - points_.begin())] -
                              stretch_cents(std::exp(log_typical_b_), best->number) / cents_per_neper,
                .log_b = log_typical_b_};
    }

    [[nodiscard]] double residual_cents(const Solution& at, std::size_t i) const
    {
        return cents_per_neper * (logs_[i] - at.series_log) -
               stretch_cents(std::exp(at.log_b), points_[i].number);
    }

    /// Gauss-Newton with Student weights; the evidence is Laplace's about the maximum.
    void solve(Solution& at, double scatter2, int rounds) const
    {
        double determinant = 0.0;
        for (int round = 0; round <= rounds; ++round) {
            const double b = std::exp(at.log_b);
            double a11 = 0, a12 = 0, a22 = 1.0 / (log_b_prior_sd * log_b_prior_sd);
            double r1 = 0, r2 = (log_typical_b_ - at.log_b) * a22;
            at.log_evidence = -0.5 * std::pow((log_typical_b_ - at.log_b) / log_b_prior_sd, 2);
            for (std::size_t i = 0; i < points_.size(); ++i) {
                const double variance = points_[i].variance_cents2 + scatter2;
                const double residual = residual_cents(at, i), square = residual * residual / variance;
                const double trust = (student_freedom + 1.0) / (student_freedom + square);
                const double w = std::min(1.0, trust) / variance;
                const double slope = stretch_slope(b, points_[i].number);
                a11 += w, a12 += w * slope, a22 += w * slope * slope;
                r1 += w * residual, r2 += w * slope * residual;
                at.log_evidence -= 0.5 * std::log(variance) +
                                   0.5 * (student_freedom + 1.0) * std::log1p(square / student_freedom);
            }
            determinant = a11 * a22 - a12 * a12;
            if (round == rounds) break;
            at.series_log += (r1 * a22 - r2 * a12) / determinant / cents_per_neper;
            const double bend = std::clamp((r2 * a11 - r1 * a12) / determinant, -1.0, 1.0);
            at.log_b = std::clamp(at.log_b + bend, std::log(smallest_b), std::log(largest_b));
        }
        at.log_evidence -= 0.5 * std::log(determinant);
        find_first_partial(at, scatter2);
    }

  private:
    /// The best linear prediction of the series plus the first partial's own deviation.
    void find_first_partial(Solution& at, double scatter2) const
    {
        // Information of the other partials on the series.
        double a11 = 0, a12 = 0, a22 = 1.0 / (log_b_prior_sd * log_b_prior_sd);
        double own_information = 0.0, own_residual = 0.0, own_gain = 0.0;
        for (std::size_t i = 0; i < points_.size(); ++i) {
            const double variance = points_[i].variance_cents2 + scatter2;
            const double residual = residual_cents(at, i);
            const double trust =
                std::min(1.0, (student_freedom + 1.0) / (student_freedom + residual * residual / variance));
            if (points_[i].number == 1) {
                own_residual = residual;
                own_gain = trust * scatter2 / variance;
                own_information = 1.0 / (variance / trust - scatter2);
                continue;
            }
            const double w = trust / (points_[i].variance_cents2 + widening * scatter2);
            const double slope = stretch_slope(std::exp(at.log_b), points_[i].number);
            a11 += w, a12 += w * slope, a22 += w * slope * slope;
        }
        const double others = a11 - a12 * a12 / a22; // the B that is expected does its part
        const double from_series = others > 0.0 ? 1.0 / (1.0 / others + widening * scatter2) : 0.0;
        at.variance = 1.0 / (own_information + from_series);
        at.first_log = at.series_log + own_gain * own_residual / cents_per_neper;
    }

    std::span<const SeriesPoint> points_;
    double log_typical_b_;
    std::vector<double> logs_; ///< ln(f_k / k)
};

/// The solutions for all sizes of scatter, each with its posterior weight.
struct Mixture {
    std::array<Solution, scatter_count> solutions;
    std::array<double, scatter_count> scatter2{};
    std::array<double, scatter_count> weight{};
    std::array<double, scatter_count> share{}; ///< in the estimate
    double first_log = 0.0;                    ///< ln f1: the estimate
    double variance = 0.0;                     ///< about it, cents^2
};

Mixture solve_all(const SeriesProblem& problem)
{
    Mixture mixture;
    Solution at = problem.start();
    double highest = -1e300;
    for (std::size_t i = 0; i < scatter_count; ++i) {
        const double steps = static_cast<double>(i) * scatter_step;
        mixture.scatter2[i] = std::pow(largest_scatter_cents * std::exp(-steps), 2);
        problem.solve(at, mixture.scatter2[i], i == 0 ? rounds_at_first : rounds_from_neighbour);
        mixture.solutions[i] = at;
        const double from_expected = std::log(largest_scatter_cents / expected_scatter_cents) - steps;
        mixture.weight[i] = at.log_evidence - 0.5 * std::pow(from_expected / log_scatter_sd, 2);
        highest = std::max(highest, mixture.weight[i]);
    }
    double sum = 0.0;
    for (double& weight : mixture.weight) sum += weight = std::exp(weight - highest);
    // The estimate lies near the mode, where weight / sd is highest, not at the mean: with few partials the
    // wide solutions lean on the B that was expected, and a sharp one that fits as well says better.
    double shares = 0.0;
    for (std::size_t i = 0; i < scatter_count; ++i) {
        mixture.weight[i] /= sum;
        mixture.share[i] = mixture.weight[i] / mixture.solutions[i].variance;
        shares += mixture.share[i];
    }
    for (std::size_t i = 0; i < scatter_count; ++i) {
        mixture.share[i] /= shares;
        mixture.first_log += mixture.share[i] * mixture.solutions[i].first_log;
    }
    for (std::size_t i = 0; i < scatter_count; ++i) {
        const double apart = cents_per_neper * (mixture.solutions[i].first_log - mixture.first_log);
        mixture.variance += mixture.weight[i] * (mixture.solutions[i].variance + apart * apart);
    }
    return mixture;
}

/// Half-width about the estimate that holds 95 % of a mixture of normal distributions.
double half_width(const Mixture& mixture)
{
    double low = 0.0, high = 20.0 * std::sqrt(mixture.variance);
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        double held = 0.0;
        for (std::size_t k = 0; k < scatter_count; ++k) {
            if (mixture.weight[k] < 1e-9) continue;
            const double sd = std::sqrt(mixture.solutions[k].variance);
            const double apart = cents_per_neper * (mixture.solutions[k].first_log - mixture.first_log);
            held += mixture.weight[k] * (stats::normal_probability((middle - apart) / sd) -
                                         stats::normal_probability((-middle - apart) / sd));
        }
        (held < 0.95 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace

double StiffSeries::partial_hz(int number) const
{
    return number * fundamental_hz * std::sqrt(1.0 + inharmonicity * number * number);
}

SeriesFit fit_series(std::span<const SeriesPoint> points, double typical_b)
{
    HARPKEEP_EXPECTS(!points.empty() && typical_b > 0.0);
    const SeriesProblem problem(points, typical_b);
    const Mixture mixture = solve_all(problem);

    Solution mean;
    double scatter2 = 0.0, from_noise = 0.0;
    for (std::size_t i = 0; i < scatter_count; ++i) {
        mean.series_log += mixture.share[i] * mixture.solutions[i].series_log;
        mean.log_b += mixture.share[i] * mixture.solutions[i].log_b;
        scatter2 += mixture.weight[i] * mixture.scatter2[i];
        from_noise += mixture.weight[i] * mixture.solutions.back().variance;
    }
    SeriesFit fit;
    const double b = std::exp(mean.log_b);
    fit.first_partial_hz = std::exp(mixture.first_log);
    fit.series = {std::exp(mean.series_log) / std::sqrt(1.0 + b), b};
    fit.scatter_cents = std::sqrt(scatter2);
    // What the noise alone leaves is known well; the rest rests on as many partials as there are to spare.
    const double rest = std::max(0.0, 1.0 - from_noise / mixture.variance);
    const double spare = std::max(1.0, static_cast<double>(points.size()) - 2.0) + 2.0;
    fit.degrees_of_freedom = 1.0 / (rest * rest / spare + (1.0 - rest) * (1.0 - rest) / 60.0);
    fit.uncertainty_cents = half_width(mixture) / stats::coverage_factor(0.95, fit.degrees_of_freedom);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double residual = problem.residual_cents(mean, i);
        const double variance = points[i].variance_cents2 + scatter2;
        fit.residual_cents.push_back(residual);
        fit.trust.push_back(
            std::min(1.0, (student_freedom + 1.0) / (student_freedom + residual * residual / variance)));
    }
    return fit;
}

StiffSeries follow_series(std::span<const SeriesPoint> points, double typical_b)
{
    HARPKEEP_EXPECTS(!points.empty() && typical_b > 0.0);
    const SeriesProblem problem(points, typical_b);
    Solution at = problem.start();
    problem.solve(at, following_scatter_cents * following_scatter_cents, rounds_at_first);
    const double b = std::exp(at.log_b);
    return {std::exp(at.series_log) / std::sqrt(1.0 + b), b};
}

} // namespace harpkeep
