// SPDX-License-Identifier: MIT
#include "tests/support/synthetic_history.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep::test {

namespace {

/// The step on every day: level, trend, season and random walk; set anew on the day of the visit.
std::vector<double> true_course(const HistorySettings& settings, int days, int visit_day, double mean_trend,
                                Dice& dice)
{
    const double trend = mean_trend + settings.trend_spread_cents * dice.normal();
    const double amplitude = settings.season_cents * std::abs(dice.normal());
    const double phase = dice.uniform(0.0, 2.0 * std::numbers::pi);
    double level = settings.level_cents * dice.normal();
    double walk = 0.0;
    std::vector<double> course;
    for (int day = 0; day < days; ++day) {
        walk += settings.wander_cents / std::sqrt(365.25) * dice.normal();
        const double season = amplitude * std::cos(2.0 * std::numbers::pi * day / 365.25 + phase);
        const double moved = trend * day / 365.25 + walk;
        if (day == visit_day) level = 1.0 * dice.normal() - moved; // a good technician leaves a cent
        course.push_back(level + moved + season);
    }
    return course;
}

} // namespace

SyntheticHistory make_history(const HistorySettings& settings, Dice& dice)
{
    SyntheticHistory history;
    std::vector<int> days;
    for (int check = 0; check < settings.checks; ++check)
        days.push_back(settings.jitter_days + check * settings.days_between_checks +
                       dice.whole(-settings.jitter_days, settings.jitter_days));
    history.today = days.back();
    int visit_day = -1;
    if (settings.visit_before_check > 0) {
        visit_day = days[static_cast<std::size_t>(settings.visit_before_check)] - 2;
        history.events.push_back({HarpEventKind::visit, visit_day, std::nullopt});
    }
    std::vector<double> humidity;
    for (int check = 0; check < settings.checks; ++check) humidity.push_back(45.0 + 8.0 * dice.normal());

    for (int step = 0; step < settings.steps; ++step) {
        const Step kind = step % 2 == 0 ? Step::lower : Step::upper;
        const auto place = place_from_diatonic_index(9 + step / 2);
        const double mean_trend =
            kind == Step::lower ? settings.mean_trend_cents : -settings.mean_trend_cents;
        history.truth.push_back(
            true_course(settings, history.today + settings.future_days + 1, visit_day, mean_trend, dice));
        const double by_humidity = settings.humidity_cents_per_percent * dice.normal();
        StepHistory one{place, kind, {}};
        for (std::size_t check = 0; check < days.size(); ++check) {
            const double error = std::hypot(settings.check_scatter_cents, settings.stated_uncertainty_cents);
            double seen = history.truth.back()[static_cast<std::size_t>(days[check])] +
                          by_humidity * (humidity[check] - 45.0) + error * dice.normal();
            if (dice.chance(settings.wrong_reading_share)) seen += dice.sign() * dice.uniform(2.0, 6.0);
            HistoryPoint point{days[check], seen, settings.stated_uncertainty_cents, std::nullopt};
            if (settings.log_humidity) point.relative_humidity_percent = humidity[check];
            one.points.push_back(point);
        }
        history.histories.push_back(one);
    }
    return history;
}

} // namespace harpkeep::test
