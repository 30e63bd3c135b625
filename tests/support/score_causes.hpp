// SPDX-License-Identifier: MIT
#pragma once

#include "reason/cause.hpp"
#include "tests/support/planted_harp.hpp"

namespace harpkeep::test {

/// How many planted faults were found, counted over harps.
///
/// A pedal is found when every step in which it is off is reported, with the right sign. A string counts when
/// at least one step in which it is off was measured (or flat to sharp, when its two errors do not cancel),
/// and is found when every such step is reported, with the right sign. Anything reported that was not planted
/// is a false alarm.
struct CauseScore {
    int harps = 0;
    int pedals = 0, pedals_found = 0;
    int strings = 0, strings_found = 0;
    int strings_planted = 0; ///< with those that the check missed
    int slopes = 0, slopes_found = 0;
    int false_pedals = 0, false_strings = 0, false_along_neck = 0;
    int harps_with_false_alarm = 0;
    int intervals = 0,
        intervals_covering = 0; ///< 95 % intervals of found effects, and those that hold the truth
    double squared_pedal_error = 0.0;
    int pedal_errors = 0;
};

void add_to_score(CauseScore& score, const PlantedHarp& harp, const CauseReport& report);

} // namespace harpkeep::test
