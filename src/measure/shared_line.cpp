// SPDX-License-Identifier: MIT
#include "measure/shared_line.hpp"

#include "base/expects.hpp"
#include "stats/quantiles.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep {

namespace {

constexpr double student_freedom = 3.0;
// The spread of a Student likelihood is smaller than the standard deviation that it fits; Fisher's
// information on its location is (nu + 1) / (nu + 3) of that of a normal one of the same spread.
constexpr double widening = (student_freedom + 3.0) / (student_freedom + 1.0);
constexpr std::size_t factor_count = 14;
// 600 down to 0.0068: a step's least unevenness is 0.007 cent, what bodies move a partial by 6 cents at most.
constexpr double largest_factor = 600.0, factor_step = 2.4;
constexpr int rounds = 12, rounds_of_few = 60; // few points settle slowly between two places
constexpr double most_degrees = 60.0;
constexpr std::size_t few_points = 3; // of more the place that most agree on mostly stands out
constexpr double same_place_sds = 0.3, near_sds = 3.0; // our own choice

struct Solution {
    double value = 0.0, bend = 0.0, variance = 0.0, log_evidence = 0.0, factor = 0.0, weight = 0.0;
};

/// The fit for one size of scatter: iterated Student weights; the evidence is Laplace's about the maximum.
Solution solve(std::span<const LinePoint> points, double bend_sd, double factor, Solution at, int last_round)
{
    const double prior = 1.0 / (bend_sd * bend_sd);
    at.factor = factor;
    for (int round = 0; round <= last_round; ++round) {
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
        if (round == last_round) break;
        at.value = (y1 * a22 - y2 * a12) / determinant;
        at.bend = (y2 * a11 - y1 * a12) / determinant;
    }
    return at;
}

using Solutions = std::vector<Solution>;

double factor_at(std::size_t i)
{
    return largest_factor * std::pow(factor_step, -static_cast<double>(i));
}

/// Within so many standard deviations of the surer one.
bool in_one_place(const Solution& a, const Solution& b, double sds)
{
    return std::abs(a.value - b.value) <= sds * std::sqrt(std::min(a.variance, b.variance));
}

/// The places where the points may agree for one size of scatter: from where they agreed for a wider one or,
/// where few points may be of two minds, from each point.
Solutions solve_from_all(std::span<const LinePoint> points, double bend_sd, double factor,
                         const Solution& from)
{
    if (points.size() > few_points) return {solve(points, bend_sd, factor, from, rounds)};
    Solutions places;
    for (const auto& point : points) {
        const Solution place = solve(points, bend_sd, factor, {.value = point.value_cents}, rounds_of_few);
        const auto is_there = [&](const Solution& other) {
            return in_one_place(place, other, same_place_sds);
        };
        if (std::none_of(places.begin(), places.end(), is_there)) places.push_back(place);
    }
    return places;
}

double log_prior(const ScatterPrior& prior, double factor)
{
    const double off = std::log(factor / prior.factor) / prior.log_sd;
    if (prior.tail == 0.0) return -0.5 * off * off;
    return -0.5 * (1.0 / prior.tail + 1.0) * std::log1p(off * off * prior.tail);
}

/// All of them for all sizes of scatter, the widest first.
Solutions solve_all(std::span<const LinePoint> points, double bend_sd, const ScatterPrior& prior)
{
    Solutions solutions;
    Solution at; // begins at the plain mean
    for (const auto& point : points) at.value += point.value_cents / static_cast<double>(points.size());
    for (std::size_t i = 0; i < factor_count; ++i) {
        const Solutions places = solve_from_all(points, bend_sd, factor_at(i), at);
        solutions.insert(solutions.end(), places.begin(), places.end());
        at = places.front();
    }
    double highest = -1e300, sum = 0.0;
    for (auto& one : solutions) {
        one.weight = one.log_evidence + log_prior(prior, one.factor);
        highest = std::max(highest, one.weight);
    }
    for (auto& one : solutions) sum += one.weight = std::exp(one.weight - highest);
    for (auto& one : solutions) one.weight /= sum;
    return solutions;
}

double density(const Solution& one)
{
    return one.weight / std::sqrt(one.variance);
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
    HARPKEEP_EXPECTS(!points.empty() && bend_sd > 0.0 && prior.factor > 0.0 && prior.log_sd > 0.0 &&
                     prior.tail >= 0.0);
    const Solutions solutions = solve_all(points, bend_sd, prior);
    LineFit fit;
    // About the mode, where the density is highest: the wide solutions say little about where it is.
    const Solution& mode =
        *std::max_element(solutions.begin(), solutions.end(),
                          [](const Solution& a, const Solution& b) { return density(a) < density(b); });
    double densities = 0.0;
    for (const auto& one : solutions) {
        if (!in_one_place(one, mode, near_sds)) continue;
        densities += density(one);
        fit.value_cents += density(one) * one.value;
        fit.bend += density(one) * one.bend;
    }
    fit.value_cents /= densities, fit.bend /= densities;
    double variance = 0.0, widest = 0.0;
    for (const auto& one : solutions) {
        const double apart = one.value - fit.value_cents;
        variance += one.weight * (one.variance + apart * apart);
        fit.scatter += one.weight * one.factor;
        if (one.weight >= 1e-9) widest = std::max(widest, std::sqrt(one.variance + apart * apart));
    }
    const auto by_factor_and_density = [](const Solution& a, const Solution& b) {
        return a.factor != b.factor ? a.factor > b.factor : density(a) < density(b);
    };
    const double from_noise =
        std::max_element(solutions.begin(), solutions.end(), by_factor_and_density)->variance;
    // What the noise alone leaves is known well; the rest rests on as many partials as there are to spare.
    const double rest = std::max(0.0, 1.0 - from_noise / variance);
    const double spare = std::max(1.0, static_cast<double>(points.size()) - 1.0) + 1.0;
    fit.degrees_of_freedom = 1.0 / (rest * rest / spare + (1.0 - rest) * (1.0 - rest) / most_degrees);
    fit.uncertainty_cents =
        half_width(solutions, fit.value_cents, widest) / stats::coverage_factor(0.95, fit.degrees_of_freedom);
    return fit;
}

} // namespace harpkeep
