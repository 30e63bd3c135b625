// SPDX-License-Identifier: MIT
#pragma once

#include "harp/pedal_setting.hpp"
#include "ui/dashboard/models/common.hpp"

#include <array>
#include <vector>

namespace harpkeep::dashboard {

struct TuneAroundRow {
    StringPlace place;
    Position position = Position::flat; ///< used by the setting
    double before_cents = 0.0;          ///< off in that position when the open string is true
    double offset_cents = 0.0;          ///< tune the open string off by this
    double after_cents = 0.0;
    State state = State::fine;
};

struct EnharmonicPair {
    std::string first;
    std::string second;
    Figure apart_cents;
    double beats_hz = 0.0;
};

struct ReadySetting {
    std::string key; ///< "E-flat major"
    PedalSetting setting;
    double worst_cents = 0.0; ///< after tuning around
    State state = State::fine;
};

struct PedalsModel {
    HarpHeading harp;
    HarpKind kind = HarpKind::pedal;
    PedalSetting setting;
    std::string sounds; ///< "E-flat major"
    double worst_before_cents = 0.0;
    double worst_after_cents = 0.0;
    std::vector<TuneAroundRow> rows; ///< lowest first
    std::vector<EnharmonicPair> pairs;
    std::vector<ReadySetting> ready; ///< settings usable today, best first
    std::string summary;
};

} // namespace harpkeep::dashboard
