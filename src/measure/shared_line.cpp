// SPDX-License-Identifier: MIT
#include "measure/shared_line.hpp"

#include "base/expects.hpp"
#include "stats/quantiles.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double student_freedom = 3.0;
// The spread of a Student likelihood is smaller than the standard deviation that it fits; Fisher's
// information on its location is (nu + 1) / (nu + 3) of that of a normal one of the same spread.
constexpr double widening = (student_freedom + 3.0) / (student_freedom + 1.0);
constexpr std::size_t factor_count = 12;
constexpr double largest_factor = 100.0, factor_step = 2.4; // 100 down to 0.0066
constexpr int rounds = 12;
constexpr double most_degrees = 60.0;

struct Solution {
    double value = 0.0, bend = 0.0, variance = 0.0, log_evidence = 0.0, weight = 0.0;
};

/// The fit for one size of scatter: iterated Student weights; the evidence is Laplace's about the maximum.
Solution solve(std::span<const LinePoint> points, double bend_sd, double factor, Solution at)
{
    const double prior = 1.0 / (bend_sd * bend_sd);
    for (int round = 0; round <= rounds; ++round) {
        double a11 = 0, a12 = 0, a22 = prior, y1 = 0, y2 = 0, log_likelihood = 0;
        double i11 = 0, i12 = 0, i22 = prior; // information, widened
        for (const auto& point : points) {
            const double scatter2 = factor * factor * point.unevenness_cents2;
            const double variance = point.noise_cents2 + scatter2;
            const double residual = point.value_cents - at.value - at.bend * point.slope_cents;
            const double square = residual * residual / variance;
            const double trust = std::min(1.0, (student_freedom + 1.0) / (student_freedom + square));
            const double w = trust / variance;
            a11 += w, a12 += w * point.slope_cents, a22 += w * point.slope_cents * point.slope_cents;
            const double known = trust / (point.noise_cents2 + widening * scatter2);
            i11 += known, i12 += known * point.slope_cents,
                i22 += known * point.slope_cents * point.slope_cents;
            y1 += w * point.value_cents, y2 += w * point.slope_cents * point.value_cents;
            log_likelihood -= 0.5 * std::log(variance) +
                              0.5 * (student_freedom + 1.0) * std::log1p(square / student_freedom);
        }
        const double determinant = a11 * a22 - a12 * a12;
        at.variance = i22 / (i11 * i22 - i12 * i12);
        at.log_evidence = log_likelihood - 0.5 * prior * at.bend * at.bend - 0.5 * std::log(determinant);
        if (round == rounds) break;
        at.value = (y1 * a22 - y2 * a12) / determinant;
        at.bend = (y2 * a11 - y1 * a12) / determinant;
    }
    return at;
}

using Solutions = std::array<Solution, factor_count>;

double factor_at(std::size_t i)
{
    return largest_factor * std::pow(factor_step, -static_cast<double>(i));
}

Solutions solve_all(std::span<const LinePoint> points, double bend_sd, const ScatterPrior& prior)
{
    Solutions solutions;
    Solution at;
    double highest = -1e300, sum = 0.0;
    for (const auto& point : points) at.value += point.value_cents / static_cast<double>(points.size());
    for (std::size_t i = 0; i < factor_count; ++i) {
        at = solve(points, bend_sd, factor_at(i), at); // the widest first: its start is the plain mean
        solutions[i] = at;
        const double off = std::log(factor_at(i) / prior.factor) / prior.log_sd;
        solutions[i].weight = at.log_evidence - 0.5 * off * off;
        highest = std::max(highest, solutions[i].weight);
    }
    for (auto& one : solutions) sum += one.weight = std::exp(one.weight - highest);
    for (auto& one : solutions) one.weight /= sum;
    return solutions;
}

/// Half-width about the estimate that holds 95 % of a mixture of normal distributions.
double half_width(const Solutions& solutions, double value, double widest)
{
    double low = 0.0, high = 20.0 * widest;
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        double held = 0.0;
        for (const auto& one : solutions) {
            if (one.weight < 1e-9) continue;
            const double sd = std::sqrt(one.variance), apart = one.value - value;
            held += one.weight * (stats::normal_probability((middle - apart) / sd) -
                                  stats::normal_probability((-middle - apart) / sd));
        }
        (held < 0.95 ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

} // namespace

LineFit fit_shared_line(std::span<const LinePoint> points, double bend_sd, const ScatterPrior& prior)
{
    HARPKEEP_EXPECTS(!points.empty() && bend_sd > 0.0 && prior.factor > 0.0 && prior.log_sd > 0.0);
    const Solutions solutions = solve_all(points, bend_sd, prior);
    LineFit fit;
    // Near the mode, where weight / sd is highest: the wide solutions say little about where it is.
    double shares = 0.0;
    for (const auto& one : solutions) shares += one.weight / std::sqrt(one.variance);
    for (const auto& one : solutions) {
        const double share = one.weight / std::sqrt(one.variance) / shares;
        fit.value_cents += share * one.value;
        fit.bend += share * one.bend;
    }
    double variance = 0.0, from_noise = solutions.back().variance, widest = 0.0;
    for (std::size_t i = 0; i < factor_count; ++i) {
        const double apart = solutions[i].value - fit.value_cents;
        variance += solutions[i].weight * (solutions[i].variance + apart * apart);
        fit.scatter += solutions[i].weight * factor_at(i);
        if (solutions[i].weight >= 1e-9)
            widest = std::max(widest, std::sqrt(solutions[i].variance + apart * apart));
    }
    // What the noise alone leaves is known well; the rest rests on as many partials as there are to spare.
    const double rest = std::max(0.0, 1.0 - from_noise / variance);
    const double spare = std::max(1.0, static_cast<double>(points.size()) - 1.0) + 1.0;
    fit.degrees_of_freedom = 1.0 / (rest * rest / spare + (1.0 - rest) * (1.0 - rest) / most_degrees);
    fit.uncertainty_cents =
        half_width(solutions, fit.value_cents, widest) / stats::coverage_factor(0.95, fit.degrees_of_freedom);
    return fit;
}

} // namespace harpkeep
