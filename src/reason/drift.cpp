// SPDX-License-Identifier: MIT
#include "reason/drift.hpp"

#include "reason/drift_model.hpp"
#include "reason/drift_parameters.hpp"
#include "stats/robust_scale.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace harpkeep {

namespace {

double square(double x)
{
    return x * x;
}

bool season_can_be_told(const DriftFit& fit)
{
    std::set<int> days;
    for (const auto& history : fit.histories)
        for (const auto& point : history.points) days.insert(point.day);
    return days.size() >= 5 && *days.rbegin() - *days.begin() > 400;
}

/// The median humidity of all points, when it was logged on at least four days that differ.
std::optional<double> usual_humidity(const DriftFit& fit)
{
    std::vector<double> all;
    std::set<int> days;
    for (const auto& history : fit.histories)
        for (const auto& point : history.points)
            if (point.relative_humidity_percent) {
                all.push_back(*point.relative_humidity_percent);
                days.insert(point.day);
            }
    if (days.size() < 4) return std::nullopt;
    const auto [least, most] = std::minmax_element(all.begin(), all.end());
    constexpr double least_range_percent = 5.0; // own choice: less is within what a room logger is worth
    if (*most - *least < least_range_percent) return std::nullopt;
    return stats::median(all);
}

/// Raises the noise of points that their own step's other points contradict.
///
/// Reference  Rasmussen and Williams 2006, (5.12): leave-one-out residuals without refitting
void weigh_points(DriftFit& fit)
{
    // Own choice: what normal scatter does once in 370 points is let be; what lies twice as far off keeps a
    // sixteenth of its weight. A gentler rule would take the random walk's own moves for wrong readings.
    constexpr double far_off = 3.0;
    for (std::size_t step = 0; step < fit.histories.size(); ++step) {
        const auto count = fit.histories[step].points.size();
        if (count < 3) continue; // two points cannot outvote one
        const auto seen = seen_step(fit, step, fit.parameters);
        const auto size = static_cast<Eigen::Index>(count);
        const Eigen::MatrixXd precision = seen.factor.solve(Eigen::MatrixXd::Identity(size, size));
        const Eigen::VectorXd weighted = precision * seen.rest;
        for (std::size_t i = 0; i < count; ++i) {
            const auto k = static_cast<Eigen::Index>(i);
            double& factor = fit.noise_factors[step][i];
            const double left_out_variance = 1.0 / precision(k, k); // spread of point less prediction
            const double plain_variance = left_out_variance - seen.noise(k) + seen.noise(k) / factor;
            const double pull = weighted(k) * left_out_variance / std::sqrt(plain_variance);
            factor = std::max(1.0, square(square(pull / far_off)));
        }
    }
}

/// Puts the estimate of one column of the design where it belongs.
void set_estimate(StepDrift& drift, const DriftFit& fit, const DriftDesign& design, std::size_t column,
                  const DriftEstimate& estimate)
{
    switch (design.terms[column]) {
    case DriftTerm::trend:
        drift.trend_cents_per_year = {estimate.value + (drift.step == Step::lower
                                                            ? fit.parameters.lower_trend_cents
                                                            : fit.parameters.upper_trend_cents),
                                      estimate.uncertainty};
        return;
    case DriftTerm::season_cosine:
        if (fit.season_told) drift.season_amplitude_cents = std::abs(estimate.value);
        return;
    case DriftTerm::season_sine: // comes after the cosine
        if (fit.season_told)
            drift.season_amplitude_cents = std::hypot(*drift.season_amplitude_cents, estimate.value);
        return;
    case DriftTerm::humidity:
        drift.humidity_cents_per_percent = estimate;
        return;
    case DriftTerm::jump:
        drift.jumps.push_back({design.term_events[column], estimate.value, estimate.uncertainty});
        return;
    case DriftTerm::level:
    case DriftTerm::new_trend:
        return;
    }
}

StepDrift step_drift(const DriftFit& fit, std::size_t step)
{
    const auto& history = fit.histories[step];
    StepDrift drift{.place = history.place,
                    .step = history.step,
                    .checks = static_cast<int>(history.points.size()),
                    .first_day = history.points.front().day,
                    .last_day = history.points.back().day};
    for (const double factor : fit.noise_factors[step]) drift.points_set_aside += factor > 2.0;

    const auto seen = seen_step(fit, step, fit.parameters);
    const auto& prior = seen.design.prior_variances;
    const Eigen::MatrixXd gain =
        prior.asDiagonal() * drift_rows(seen.design, seen.moments).transpose(); // P X'
    const Eigen::VectorXd means = gain * seen.factor.solve(seen.rest);
    const Eigen::MatrixXd explained = gain * seen.factor.solve(gain.transpose());
    for (std::size_t column = 0; column < seen.design.terms.size(); ++column) {
        const auto i = static_cast<Eigen::Index>(column);
        set_estimate(drift, fit, seen.design, column,
                     {means(i), std::sqrt(std::max(0.0, prior(i) - explained(i, i)))});
    }
    return drift;
}

DriftFit prepared(std::span<const StepHistory> histories, std::span<const HarpEvent> events)
{
    DriftFit fit;
    for (const auto& history : histories)
        if (!history.points.empty()) fit.histories.push_back(history);
    for (auto& history : fit.histories) {
        std::stable_sort(history.points.begin(), history.points.end(),
                         [](const HistoryPoint& a, const HistoryPoint& b) { return a.day < b.day; });
        fit.noise_factors.emplace_back(history.points.size(), 1.0);
    }
    fit.events.assign(events.begin(), events.end());
    fit.season_told = season_can_be_told(fit);
    if (const auto humidity = usual_humidity(fit)) {
        fit.usual_humidity_percent = *humidity;
        fit.parameters.humidity_cents_per_percent = 0.05; // to start from
    }
    return fit;
}

/// The youngest points of each step: what all steps share is learnt from them, as the time that takes grows
/// with the cube of their number, and two dozen of ninety steps fix it.
DriftFit most_recent(const DriftFit& fit)
{
    constexpr std::size_t most_points = 24;
    DriftFit recent = fit;
    for (std::size_t step = 0; step < recent.histories.size(); ++step) {
        auto& points = recent.histories[step].points;
        if (points.size() <= most_points) continue;
        points.erase(points.begin(), points.end() - static_cast<std::ptrdiff_t>(most_points));
        recent.noise_factors[step].resize(most_points);
    }
    return recent;
}

} // namespace

std::optional<DriftFit> fit_drift(std::span<const StepHistory> histories, std::span<const HarpEvent> events)
{
    DriftFit fit = prepared(histories, events);
    if (fit.histories.empty()) return std::nullopt;
    constexpr int rounds = 3; // weights and parameters settle on each other
    DriftFit recent = most_recent(fit);
    improve_drift_parameters(recent);
    for (int round = 0; round < rounds; ++round) weigh_points(recent);
    improve_drift_parameters(recent);
    for (int round = 0; round < rounds; ++round) weigh_points(recent);
    draw_plausible_parameters(recent);
    fit.parameters = recent.parameters;
    fit.plausible = recent.plausible;
    for (int round = 0; round < rounds; ++round) weigh_points(fit);
    for (std::size_t step = 0; step < fit.histories.size(); ++step)
        fit.steps.push_back(step_drift(fit, step));
    return fit;
}

std::vector<DriftPoint> drift_curve(const DriftFit& fit, std::size_t step, std::span<const int> days)
{
    std::vector<DriftMoment> moments;
    for (const int day : days) moments.push_back({day, 0.0});
    const auto count = static_cast<Eigen::Index>(days.size());
    Eigen::VectorXd sum = Eigen::VectorXd::Zero(count);
    Eigen::VectorXd squares = Eigen::VectorXd::Zero(count);
    for (const auto& parameters : fit.plausible) {
        const auto posterior = drift_posterior(fit, step, parameters, moments);
        sum += posterior.mean;
        squares += posterior.covariance.diagonal() + posterior.mean.cwiseAbs2();
    }
    const auto draws = static_cast<double>(fit.plausible.size());
    std::vector<DriftPoint> curve;
    for (Eigen::Index i = 0; i < count; ++i) {
        const double mean = sum(i) / draws;
        curve.push_back({days[static_cast<std::size_t>(i)], mean,
                         std::sqrt(std::max(0.0, squares(i) / draws - mean * mean))});
    }
    return curve;
}

} // namespace harpkeep
