// SPDX-License-Identifier: MIT
#pragma once

#include "reason/drift.hpp"
#include "tests/support/planted_harp.hpp"

#include <functional>
#include <vector>

namespace harpkeep::test {

/// How the steps of a synthetic harp move over the years.
struct HistorySettings {
    int steps = 80;
    int checks = 8;
    int days_between_checks = 150;
    int jitter_days = 30;
    double level_cents = 2.0;
    double mean_trend_cents = 0.6;
    double trend_spread_cents = 1.2;
    double wander_cents = 0.6;
    double season_cents = 0.5;
    double humidity_cents_per_percent = 0.03; ///< spread over the steps
    bool log_humidity = true;
    double check_scatter_cents = 0.35;
    double stated_uncertainty_cents = 0.25;
    double wrong_reading_share = 0.02; ///< off by another 2 to 6 cents
    int visit_before_check = 0;        ///< a visit sets all steps anew before this check; 0: none
    int future_days = 730;             ///< truth goes on so long after the last check
};

struct SyntheticHistory {
    std::vector<StepHistory> histories;
    std::vector<HarpEvent> events;
    int today = 0;                          ///< day of the last check
    std::vector<std::vector<double>> truth; ///< of each step on each day from 0, at usual humidity
};

[[nodiscard]] SyntheticHistory make_history(const HistorySettings& settings, Dice& dice);

} // namespace harpkeep::test
