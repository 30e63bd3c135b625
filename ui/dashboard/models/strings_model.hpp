// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"

#include <vector>

namespace harpkeep::dashboard {

struct StringRow {
    StringPlace place;
    std::string material;
    double gauge_mm = 0.0;
    std::optional<Day> put_on;
    bool put_on_about = false; ///< only known roughly
    double age_days = 0.0;
    std::optional<double> risk; ///< chance that it breaks within the horizon, 0..1
    double risk_low = 0.0;
    double risk_high = 0.0;
    State state = State::fine;
    std::string note; ///< "settling: on for 5 days"
    int in_stock = 0;
    bool broken = false; ///< no string on the place
};

struct LifePoint {
    double years = 0.0;
    double surviving = 1.0;
    double low = 1.0;
    double high = 1.0;
};

struct LifeCurve {
    std::string group;              ///< "octaves 0 to 2, nylon"
    std::vector<LifePoint> counted; ///< steps as counted
    std::vector<LifePoint> fitted;  ///< smooth
    int breaks = 0;
    int strings = 0;
    std::string summary; ///< "half of them last 2.4 years (1.9 to 3.2)"
};

struct StockRow {
    std::string what; ///< "3A gut 0.81 mm"
    int in_stock = 0;
    int wanted = 0;
    int to_order = 0;
    std::string unit_cost;
    std::string cost;
};

struct StringsModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    int horizon_days = 90;
    std::vector<StringRow> rows; ///< lowest first
    std::vector<LifeCurve> curves;
    std::vector<StockRow> stock;
    double miss_chance = 0.05; ///< accepted chance that a string is missing
    std::string order_total;
    std::vector<Advice> advice;
};

} // namespace harpkeep::dashboard
