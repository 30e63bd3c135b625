// SPDX-License-Identifier: MIT
#pragma once

#include "reason/conformity.hpp"
#include "reason/drift.hpp"
#include "reason/tolerance.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace harpkeep {

struct ForecastSettings {
    int months = 24;
    int least_checks = 3;      ///< own choice: fewer checks of a step show no trend
    int least_span_days = 180; ///< own choice: half a year, or season and trend are one
    int paths = 2000;          ///< drawn futures; a probability is then good to 0.01
    std::uint64_t seed = 1;    ///< of the drawn futures: the same input gives the same forecast
};

/// Why there is no forecast for a step, and what would make one.
struct ForecastGap {
    int checks = 0;
    int span_days = 0;
    int checks_wanted = 0; ///< that many more
    int earliest_day = 0;  ///< the last of them not before this day
};

/// When a step leaves its tolerance if nothing is done to it.
struct LeavingForecast {
    StringPlace place;
    Step step = Step::lower;
    ToleranceBand tolerance;
    DriftPoint now;                    ///< today's estimate
    double out_now = 0.0;              ///< probability that it is out today
    std::vector<double> left_by_month; ///< probability that it has been out by the end of month 1, 2, ...
    std::optional<int> early_month;    ///< first month by which the probability reaches 10 %
    std::optional<int> middle_month;   ///< 50 %
    std::optional<int> late_month;     ///< 90 %
    double low_side = 0.0;             ///< of the futures that leave: share that leave narrow
    DriftEstimate trend_cents_per_year;
    int checks = 0;
    int span_days = 0;
    std::optional<ForecastGap> gap; ///< set: too little data; the probabilities are then left empty
};

/// Month ends as days after today: a month is a twelfth of a year.
[[nodiscard]] int day_of_month_end(int today, int month);

/// Forecast for one step of a fit.
///
/// Notes      Futures are drawn from the fit's joint distribution at the ends of the months, spread over all
///            plausible parameters; a future has left once one month's end is out of tolerance. Visits to come
///            are not foreseen.
/// Accuracy   docs/methods/drift.md; calibration by tests/benchmarks/drift_benchmark.cpp
[[nodiscard]] LeavingForecast forecast_leaving(const DriftFit& fit, std::size_t step, int today,
                                               const ToleranceBand& tolerance,
                                               const ForecastSettings& settings = {});

/// Forecasts for all steps, the soonest first; those without enough data last.
[[nodiscard]] std::vector<LeavingForecast> forecast_harp(const DriftFit& fit, int today,
                                                         const ToleranceSettings& tolerances,
                                                         const ForecastSettings& settings = {});

} // namespace harpkeep
