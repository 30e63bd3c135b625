// SPDX-License-Identifier: MIT
#pragma once

#include "ui/support/live_tuning.hpp"

#include <string>

namespace harpkeep::cli {

/// What a tuning session on the terminal is told.
struct LiveTuningWords {
    ui::DeviceChoice device;
    std::string harp_name;
    ui::LiveTuningRequest request;
    std::string tuned_to; ///< in words, for the page
};

/// Helps to tune, on the whole terminal or as JSON lines, until it is stopped.
[[nodiscard]] Result<void> tune_live(const LiveTuningWords& words, bool json);

} // namespace harpkeep::cli
