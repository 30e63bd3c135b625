// SPDX-License-Identifier: MIT
#include "tests/support/score_forecasts.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::test {

namespace {

bool is_out(double cents, const ToleranceBand& tolerance)
{
    return cents < tolerance.lower || cents > tolerance.upper;
}

/// First month at whose end the truth is out; 0 for today.
std::optional<int> true_month(const std::vector<double>& truth, int today, const ToleranceBand& tolerance,
                              int months)
{
    for (int month = 0; month <= months; ++month)
        if (is_out(truth[static_cast<std::size_t>(day_of_month_end(today, month))], tolerance)) return month;
    return std::nullopt;
}

} // namespace

void add_to_score(ForecastScore& score, const SyntheticHistory& history, const DriftFit& fit,
                  const ToleranceBand& tolerance)
{
    constexpr int horizon = 23; // the truth goes on for 730 days
    for (std::size_t step = 0; step < fit.steps.size(); ++step) {
        const auto& truth = history.truth[step];
        std::vector<int> days{history.today};
        for (const int month : ForecastScore::months) days.push_back(day_of_month_end(history.today, month));
        const auto curve = drift_curve(fit, step, days);
        const auto covered = [&](std::size_t i) {
            return std::abs(curve[i].cents - truth[static_cast<std::size_t>(days[i])]) <=
                   1.96 * curve[i].uncertainty_cents;
        };
        ++score.now_count;
        score.now_covered += covered(0);
        for (std::size_t m = 0; m < ForecastScore::months.size(); ++m) {
            ++score.later_count[m];
            score.later_covered[m] += covered(m + 1);
        }
        const auto forecast = forecast_leaving(fit, step, history.today, tolerance, {.months = horizon});
        // Steps said to be out already get no month. Only what was stated may choose: to leave out those that
        // truly are out would spoil the calibration of the rest.
        if (forecast.gap || forecast.out_now > 0.5) continue;
        auto month = true_month(truth, history.today, tolerance, horizon);
        if (month) month = std::max(1, *month); // out today: out by the end of the first month
        for (std::size_t m = 0; m < ForecastScore::months.size(); ++m) {
            const double stated =
                forecast.left_by_month[static_cast<std::size_t>(ForecastScore::months[m] - 1)];
            const bool happened = month && *month <= ForecastScore::months[m];
            auto& bin = score.by_month[m][std::min<std::size_t>(4, static_cast<std::size_t>(stated * 5.0))];
            bin.predicted += stated;
            bin.happened += happened;
            ++bin.count;
            if (ForecastScore::months[m] == 12) {
                score.brier += (stated - happened) * (stated - happened);
                score.left += happened;
            }
        }
        if (month && forecast.early_month) {
            ++score.months_forecast;
            score.months_within +=
                *month >= *forecast.early_month && *month <= forecast.late_month.value_or(horizon + 1);
        }
    }
}

} // namespace harpkeep::test
