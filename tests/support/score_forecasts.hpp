// SPDX-License-Identifier: MIT
#pragma once

#include "reason/forecast.hpp"
#include "tests/support/synthetic_history.hpp"

#include <array>
#include <vector>

namespace harpkeep::test {

/// How far estimates and forecasts hold what they promise, counted over steps.
struct ForecastScore {
    struct Bin {
        double predicted = 0.0; ///< sum of stated probabilities
        int happened = 0;
        int count = 0;
    };
    static constexpr std::array<int, 3> months{3, 6, 12};
    std::array<std::array<Bin, 5>, 3> by_month{}; ///< for each month of `months`, stated 0-20 %, 20-40 % ...
    int now_count = 0, now_covered = 0;           ///< 95 % intervals of the true step today
    std::array<int, 3> later_count{}, later_covered{};
    double brier = 0.0; ///< sum of squares of stated probability less what happened, twelve months
    int left = 0;
    int months_forecast = 0, months_within = 0; ///< steps that left: in the span from early to late month
};

/// Scores the intervals of every step, and the forecasts of those not said to be out already.
void add_to_score(ForecastScore& score, const SyntheticHistory& history, const DriftFit& fit,
                  const ToleranceBand& tolerance);

} // namespace harpkeep::test
