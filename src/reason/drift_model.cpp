// SPDX-License-Identifier: MIT
#include "reason/drift_model.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

// Prior standard deviations in cents; own choice, wide enough to let the data speak.
constexpr double level_deviation = 6.0;
constexpr double visit_jump_deviation = 5.0;
constexpr double string_jump_deviation = 3.0;
constexpr int settling_days = 14;          // common practice: about two weeks
constexpr double settling_deviation = 1.0; // extra noise while a new string stretches; own choice

double years_between(int from_day, int to_day)
{
    return (to_day - from_day) / days_in_year;
}

bool concerns(const HarpEvent& event, StringPlace place)
{
    return event.kind == HarpEventKind::visit || event.place == place;
}

double square(double x)
{
    return x * x;
}

double entry(DriftTerm term, const HarpEvent& event, const DriftMoment& moment, int origin_day)
{
    const double phase = 2.0 * std::numbers::pi * moment.day / days_in_year;
    switch (term) {
    case DriftTerm::level:
        return 1.0;
    case DriftTerm::trend:
        return years_between(origin_day, moment.day);
    case DriftTerm::season_cosine:
        return std::cos(phase);
    case DriftTerm::season_sine:
        return std::sin(phase);
    case DriftTerm::humidity:
        return moment.humidity_excess_percent;
    case DriftTerm::jump:
        return moment.day >= event.day ? 1.0 : 0.0;
    case DriftTerm::new_trend:
        break;
    }
    return std::max(0.0, years_between(event.day, moment.day));
}

} // namespace

DriftDesign drift_design(const StepHistory& history, std::span<const HarpEvent> events,
                         const DriftParameters& parameters)
{
    HARPKEEP_EXPECTS(!history.points.empty());
    DriftDesign design{.origin_day = history.points.front().day};
    std::vector<double> variances;
    const auto add = [&](DriftTerm term, double deviation, const HarpEvent& event = {}) {
        design.terms.push_back(term);
        design.term_events.push_back(event);
        variances.push_back(square(deviation));
    };
    add(DriftTerm::level, level_deviation);
    add(DriftTerm::trend, parameters.trend_spread_cents);
    add(DriftTerm::season_cosine, parameters.season_cents);
    add(DriftTerm::season_sine, parameters.season_cents);
    if (parameters.humidity_cents_per_percent > 0.0)
        add(DriftTerm::humidity, parameters.humidity_cents_per_percent);
    for (const auto& event : events) {
        if (event.day <= design.origin_day || !concerns(event, history.place)) continue;
        const bool visit = event.kind == HarpEventKind::visit;
        add(DriftTerm::jump, visit ? visit_jump_deviation : string_jump_deviation, event);
        if (!visit) add(DriftTerm::new_trend, parameters.trend_spread_cents, event);
    }
    design.prior_variances =
        Eigen::Map<const Eigen::VectorXd>(variances.data(), static_cast<Eigen::Index>(variances.size()));
    return design;
}

Eigen::MatrixXd drift_rows(const DriftDesign& design, std::span<const DriftMoment> moments)
{
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(moments.size()),
                         static_cast<Eigen::Index>(design.terms.size()));
    for (Eigen::Index i = 0; i < rows.rows(); ++i)
        for (Eigen::Index j = 0; j < rows.cols(); ++j) {
            const auto k = static_cast<std::size_t>(j);
            rows(i, j) = entry(design.terms[k], design.term_events[k], moments[static_cast<std::size_t>(i)],
                               design.origin_day);
        }
    return rows;
}

Eigen::MatrixXd drift_covariance(const DriftDesign& design, const DriftParameters& parameters,
                                 std::span<const DriftMoment> a, std::span<const DriftMoment> b)
{
    Eigen::MatrixXd covariance =
        drift_rows(design, a) * design.prior_variances.asDiagonal() * drift_rows(design, b).transpose();
    for (Eigen::Index i = 0; i < covariance.rows(); ++i)
        for (Eigen::Index j = 0; j < covariance.cols(); ++j) {
            const int earlier =
                std::min(a[static_cast<std::size_t>(i)].day, b[static_cast<std::size_t>(j)].day);
            // Brownian motion that starts at the first check; before it there is nothing to say.
            covariance(i, j) +=
                square(parameters.wander_cents) * std::max(0.0, years_between(design.origin_day, earlier));
        }
    return covariance;
}

Eigen::VectorXd drift_noise(const StepHistory& history, std::span<const HarpEvent> events,
                            const DriftParameters& parameters, std::span<const double> noise_factors)
{
    HARPKEEP_EXPECTS(noise_factors.size() == history.points.size());
    Eigen::VectorXd noise(static_cast<Eigen::Index>(history.points.size()));
    for (std::size_t i = 0; i < history.points.size(); ++i) {
        const auto& point = history.points[i];
        double variance = square(point.uncertainty_cents) + square(parameters.check_scatter_cents);
        for (const auto& event : events)
            if (event.kind == HarpEventKind::string_change && event.place == history.place &&
                point.day >= event.day && point.day < event.day + settling_days)
                variance += square(settling_deviation);
        noise(static_cast<Eigen::Index>(i)) = variance * noise_factors[i];
    }
    return noise;
}

Eigen::VectorXd drift_mean(const DriftDesign& design, Step step, const DriftParameters& parameters,
                           std::span<const DriftMoment> moments)
{
    const double trend = step == Step::lower ? parameters.lower_trend_cents : parameters.upper_trend_cents;
    Eigen::VectorXd mean(static_cast<Eigen::Index>(moments.size()));
    for (std::size_t i = 0; i < moments.size(); ++i)
        mean(static_cast<Eigen::Index>(i)) = trend * years_between(design.origin_day, moments[i].day);
    return mean;
}

std::vector<DriftMoment> moments_of(const StepHistory& history, double usual_humidity_percent)
{
    std::vector<DriftMoment> moments;
    for (const auto& point : history.points)
        moments.push_back({point.day, point.relative_humidity_percent.value_or(usual_humidity_percent) -
                                          usual_humidity_percent});
    return moments;
}

SeenStep seen_step(const DriftFit& fit, std::size_t step, const DriftParameters& parameters)
{
    HARPKEEP_EXPECTS(step < fit.histories.size());
    const auto& history = fit.histories[step];
    SeenStep seen{.design = drift_design(history, fit.events, parameters),
                  .moments = moments_of(history, fit.usual_humidity_percent),
                  .noise = drift_noise(history, fit.events, parameters, fit.noise_factors[step])};
    Eigen::MatrixXd covariance = drift_covariance(seen.design, parameters, seen.moments, seen.moments);
    covariance.diagonal() += seen.noise;
    seen.factor.compute(covariance);
    HARPKEEP_EXPECTS(seen.factor.info() == Eigen::Success);
    seen.rest = -drift_mean(seen.design, history.step, parameters, seen.moments);
    for (std::size_t i = 0; i < history.points.size(); ++i)
        seen.rest(static_cast<Eigen::Index>(i)) += history.points[i].error_cents;
    return seen;
}

DriftPosterior drift_posterior(const DriftFit& fit, std::size_t step, const DriftParameters& parameters,
                               std::span<const DriftMoment> moments)
{
    const auto seen = seen_step(fit, step, parameters);
    const Eigen::MatrixXd cross = drift_covariance(seen.design, parameters, moments, seen.moments);
    return {drift_mean(seen.design, fit.histories[step].step, parameters, moments) +
                cross * seen.factor.solve(seen.rest),
            drift_covariance(seen.design, parameters, moments, moments) -
                cross * seen.factor.solve(cross.transpose())};
}

} // namespace harpkeep
