// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"

#include <vector>

namespace harpkeep::dashboard {

struct TensionRow {
    StringPlace place;
    std::string material;
    double length_mm = 0.0;
    double gauge_mm = 0.0;
    Figure tension_n;
    double stress_mpa = 0.0;
    double of_breaking = 0.0; ///< stress over breaking stress, 0..1
    State state = State::fine;
    std::string note;
};

/// What another gauge would do at one place.
struct GaugeTrial {
    StringPlace place;
    double gauge_mm = 0.0;
    double tension_n = 0.0;
    double tension_change_n = 0.0;
    double of_breaking = 0.0;
    double feel_ratio = 1.0; ///< sideways stiffness against now
    std::string advice;
};

struct TensionModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    std::vector<StringPlace> places; ///< of the harp, lowest first
    std::vector<TensionRow> rows;    ///< of those the plan knows enough of, lowest first
    Figure total_n;
    std::optional<GaugeTrial> trial;
    std::string rests_on; ///< where gauges, densities and limits come from
};

} // namespace harpkeep::dashboard
