// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"

#include <vector>

namespace harpkeep::dashboard {

struct ClimatePoint {
    double day = 0.0; ///< days since 1970-01-01, with fraction
    double temperature_c = 0.0;
    double humidity_percent = 0.0;
};

struct ClimateModel {
    std::string place;                ///< "practice room 2"
    std::vector<ClimatePoint> points; ///< oldest first; the means of days that are more than a year ago
    double humidity_low_percent = 40.0;
    double humidity_high_percent = 50.0;
    double temperature_low_c = 20.0;
    double temperature_high_c = 25.0;
    double share_inside = 0.0; ///< of the last 90 days within both bands, 0..1
    std::vector<Advice> remarks;
};

} // namespace harpkeep::dashboard
