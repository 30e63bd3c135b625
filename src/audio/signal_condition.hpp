// SPDX-License-Identifier: MIT
#pragma once

#include "audio/channel_choice.hpp"

#include <string>
#include <vector>

namespace harpkeep {

/// How fit a recording is for measuring.
struct SignalCondition {
    double peak_dbfs = -200.0;          ///< of the channels in use
    double dc_offset = 0.0;             ///< mean of the channel in use that is farthest off
    double clipped_share = 0.0;         ///< of the worst channel in use
    bool silent = false;                ///< nothing that could be a pluck
    double highest_measurable_hz = 0.0; ///< strings whose first partial is higher cannot be measured
    std::vector<int> dead_channels;     ///< counted from 1
    std::vector<std::string> advice;    ///< what a player should know, one sentence each with what to do
};

/// Given     survey          of the whole recording
///           choice          the channels in use
/// Notes     A recording at 8000 Hz (telephone, some voice memos) ends at 3400 Hz, others at the same share
/// of their
///           rate: filters take the rest away.
[[nodiscard]] SignalCondition judge_signal(const ChannelSurvey& survey, const ChannelChoice& choice,
                                           double sample_rate_hz);

/// The highest first partial that a recording at this rate holds with certainty: 0.425 of the rate.
[[nodiscard]] double highest_measurable_hz(double sample_rate_hz);

} // namespace harpkeep
