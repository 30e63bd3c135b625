// SPDX-License-Identifier: MIT
#include "reason/drift.hpp"
#include "reason/drift_model.hpp"
#include "reason/forecast.hpp"
#include "tests/support/score_forecasts.hpp"
#include "tests/support/synthetic_history.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

double percent(int part, int whole)
{
    return 100.0 * part / whole;
}

/// A history without anything random but measuring.
SyntheticHistory plain_history(double trend_cents_per_year, Dice& dice, int steps = 20)
{
    return make_history({.steps = steps,
                         .checks = 9,
                         .level_cents = 1.0,
                         .mean_trend_cents = trend_cents_per_year,
                         .trend_spread_cents = 0.2,
                         .wander_cents = 0.1,
                         .season_cents = 0.0,
                         .humidity_cents_per_percent = 0.0,
                         .wrong_reading_share = 0.0},
                        dice);
}

} // namespace

// The information form of Bayesian regression is another formula for the same posterior.
TEST_CASE("drift: without wander the posterior is that of Bayesian regression", "[reason][twin]")
{
    Dice dice(1);
    const auto history = plain_history(1.0, dice, 2);
    auto fit = fit_drift(history.histories, history.events).value();
    DriftParameters parameters = fit.parameters;
    parameters.wander_cents = 0.0;
    const auto seen = seen_step(fit, 0, parameters);
    const Eigen::MatrixXd rows = drift_rows(seen.design, seen.moments);
    const Eigen::MatrixXd weights = seen.noise.cwiseInverse().asDiagonal();
    const Eigen::MatrixXd information = rows.transpose() * weights * rows;
    const Eigen::MatrixXd prior = seen.design.prior_variances.cwiseInverse().asDiagonal();
    const Eigen::MatrixXd covariance = (information + prior).inverse();
    const Eigen::VectorXd coefficients = covariance * rows.transpose() * weights * seen.rest;

    const std::vector<DriftMoment> moments{{history.today + 100, 0.0}, {history.today + 400, 3.0}};
    const Eigen::MatrixXd ahead = drift_rows(seen.design, moments);
    const auto posterior = drift_posterior(fit, 0, parameters, moments);
    const Eigen::VectorXd mean =
        drift_mean(seen.design, fit.histories[0].step, parameters, moments) + ahead * coefficients;
    const Eigen::MatrixXd spread = ahead * covariance * ahead.transpose();
    for (Eigen::Index i = 0; i < 2; ++i) {
        CHECK(posterior.mean(i) == Approx(mean(i)).margin(1e-8));               // rounding of 8 by 8 inverses
        CHECK(posterior.covariance(i, i) == Approx(spread(i, i)).margin(1e-8)); // the same
    }
}

TEST_CASE("drift: a steady trend is found with its sign for each kind of step", "[reason]")
{
    Dice dice(2);
    const auto history = plain_history(1.5, dice);
    const auto fit = fit_drift(history.histories, history.events).value();
    for (const auto& step : fit.steps) {
        const double truth = step.step == Step::lower ? 1.5 : -1.5;
        // Trends of the steps differ by 0.2; four times their and the estimate's spread.
        CHECK(step.trend_cents_per_year.value == Approx(truth).margin(1.2));
    }
    CHECK(fit.parameters.lower_trend_cents == Approx(1.5).margin(0.3));
    CHECK(fit.parameters.upper_trend_cents == Approx(-1.5).margin(0.3));
}

TEST_CASE("drift: a visit shows as a jump, not as a trend", "[reason]")
{
    Dice dice(3);
    auto history = plain_history(0.0, dice);
    const int visit_day = history.histories[0].points[5].day - 3;
    for (auto& step : history.histories)
        for (auto& point : step.points)
            if (point.day >= visit_day) point.error_cents -= 6.0;
    const std::vector<HarpEvent> events{{HarpEventKind::visit, visit_day, std::nullopt}};
    const auto fit = fit_drift(history.histories, events).value();
    for (const auto& step : fit.steps) {
        REQUIRE(step.jumps.size() == 1);
        CHECK(step.jumps[0].cents == Approx(-6.0).margin(4.0 * step.jumps[0].uncertainty_cents));
        CHECK(step.jumps[0].uncertainty_cents < 1.0);
        CHECK(std::abs(step.trend_cents_per_year.value) < 1.0);
    }
}

TEST_CASE("drift: a string change concerns its own string only", "[reason]")
{
    Dice dice(4);
    const auto history = plain_history(0.0, dice);
    const std::vector<HarpEvent> events{
        {HarpEventKind::string_change, history.histories[4].points[3].day, history.histories[4].place}};
    const auto fit = fit_drift(history.histories, events).value();
    for (const auto& step : fit.steps)
        CHECK(step.jumps.size() == (step.place == history.histories[4].place ? 1U : 0U));
}

TEST_CASE("drift: a wrong reading loses its weight", "[reason]")
{
    Dice dice(5);
    auto history = plain_history(0.0, dice);
    const auto before = fit_drift(history.histories, history.events).value();
    history.histories[2].points[4].error_cents += 15.0;
    const auto after = fit_drift(history.histories, history.events).value();
    CHECK(after.steps[2].points_set_aside == 1);
    const std::vector<int> days{history.today};
    // One point in nine would pull the mean by 1.7 cents.
    CHECK(drift_curve(after, 2, days)[0].cents == Approx(drift_curve(before, 2, days)[0].cents).margin(0.4));
}

TEST_CASE("drift: what humidity does to a step is learnt from its own checks", "[reason]")
{
    Dice dice(6);
    auto history = plain_history(0.0, dice);
    for (std::size_t i = 0; i < history.histories.size(); ++i)
        for (auto& point : history.histories[i].points)
            point.error_cents += (i % 2 == 0 ? 0.15 : -0.15) * (*point.relative_humidity_percent - 45.0);
    const auto fit = fit_drift(history.histories, history.events).value();
    for (std::size_t i = 0; i < fit.steps.size(); ++i) {
        REQUIRE(fit.steps[i].humidity_cents_per_percent);
        // Nine checks of 0.43 cent over 8 percent: 0.02 for each; four times that.
        CHECK(fit.steps[i].humidity_cents_per_percent->value ==
              Approx(i % 2 == 0 ? 0.15 : -0.15).margin(0.09));
    }
}

TEST_CASE("drift: shifting every error shifts the curve", "[reason][property]")
{
    Dice dice(7);
    auto history = plain_history(0.5, dice);
    const std::vector<int> days{0, history.today, history.today + 200};
    const auto fit = fit_drift(history.histories, history.events).value();
    const auto before = drift_curve(fit, 3, days);
    auto moved = fit;
    for (auto& point : moved.histories[3].points) point.error_cents += 0.5;
    const auto after = drift_curve(moved, 3, days);
    for (std::size_t i = 0; i < days.size(); ++i) {
        // The level's prior of 6 cents takes back less than a hundredth.
        CHECK(after[i].cents - before[i].cents == Approx(0.5).margin(0.02));
        CHECK(after[i].uncertainty_cents == Approx(before[i].uncertainty_cents).epsilon(0.02));
    }
}

TEST_CASE("drift: nothing measured, nothing to say", "[reason]")
{
    CHECK_FALSE(fit_drift({}, {}));
    CHECK_FALSE(fit_drift(std::vector<StepHistory>(3), {}));
}

// A small fixed set of what tests/benchmarks/drift_benchmark.cpp measures on many harps.
TEST_CASE("drift: intervals hold what they promise", "[reason]")
{
    Dice dice(20240701);
    ForecastScore score;
    for (int i = 0; i < 2; ++i) {
        const auto history = make_history({}, dice);
        add_to_score(score, history, fit_drift(history.histories, history.events).value(), {-5.0, 5.0});
    }
    // 160 steps share parameters: 95 % with four times the binomial scatter of 1.7 %.
    CHECK(percent(score.now_covered, score.now_count) >= 88.0);
    CHECK(percent(score.later_covered[1], score.later_count[1]) >= 88.0);
    CHECK(percent(score.later_covered[2], score.later_count[2]) >= 88.0);
    // Knowing the history must beat telling every step the same.
    int steps = 0;
    for (const auto& bin : score.by_month[2]) steps += bin.count;
    const double share = static_cast<double>(score.left) / steps;
    CHECK(score.brier / steps < 0.7 * share * (1.0 - share));
}

TEST_CASE("forecast: probabilities rise with time and with a narrower tolerance", "[reason][property]")
{
    Dice dice(8);
    const auto history = make_history({.steps = 10}, dice);
    const auto fit = fit_drift(history.histories, history.events).value();
    for (std::size_t step = 0; step < fit.steps.size(); ++step) {
        const auto wide = forecast_leaving(fit, step, history.today, {-5.0, 5.0});
        const auto narrow = forecast_leaving(fit, step, history.today, {-4.0, 4.0});
        REQUIRE(wide.left_by_month.size() == 24);
        for (std::size_t month = 0; month < 24; ++month) {
            CHECK(narrow.left_by_month[month] >= wide.left_by_month[month]); // same drawn futures
            if (month > 0) CHECK(wide.left_by_month[month] >= wide.left_by_month[month - 1]);
        }
        CHECK(forecast_leaving(fit, step, history.today, {-5.0, 5.0}).left_by_month == wide.left_by_month);
    }
}

TEST_CASE("forecast: a steady trend leaves when arithmetic says", "[reason]")
{
    Dice dice(9);
    const auto history = plain_history(4.0, dice);
    const auto fit = fit_drift(history.histories, history.events).value();
    const std::vector<int> days{history.today};
    int compared = 0;
    for (std::size_t step = 0; step < fit.steps.size(); ++step) {
        const double now = drift_curve(fit, step, days)[0].cents;
        const bool up = fit.steps[step].step == Step::lower;
        const double limit = now + (up ? 4.0 : -4.0); // a year ahead at four cents a year
        const auto forecast = forecast_leaving(fit, step, history.today,
                                               up ? ToleranceBand{-1e3, limit} : ToleranceBand{limit, 1e3});
        REQUIRE(forecast.middle_month);
        CHECK(*forecast.middle_month ==
              Approx(12.0).margin(3.0)); // trends differ by 5 %, estimates by as much
        CHECK(*forecast.early_month <= *forecast.middle_month);
        CHECK((up ? forecast.low_side == 0.0 : forecast.low_side == 1.0));
        ++compared;
    }
    CHECK(compared == 20);
}

TEST_CASE("forecast: too little data says what would suffice", "[reason]")
{
    Dice dice(10);
    auto history = plain_history(0.0, dice, 3);
    history.histories[0].points.resize(1);
    const auto fit = fit_drift(history.histories, history.events).value();
    const auto forecasts = forecast_harp(fit, history.today, {});
    REQUIRE(forecasts.size() == 3);
    CHECK_FALSE(forecasts[0].gap);
    CHECK_FALSE(forecasts[1].gap);
    REQUIRE(forecasts[2].gap);
    CHECK(forecasts[2].gap->checks == 1);
    CHECK(forecasts[2].gap->checks_wanted == 2);
    CHECK(forecasts[2].left_by_month.empty());
    CHECK_FALSE(forecasts[2].middle_month);
}
