// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "live/tuning_target.hpp"
#include "ui/cli/live_device.hpp"

#include <string>

namespace harpkeep::cli {

/// What a tuning session is told.
struct LiveTuningRequest {
    DeviceWords device;
    std::string harp_name;
    HarpLayout layout;
    TuningRequest tuning;
    std::string tuned_to; ///< in words, for the page
    Cents tolerance{1.0};
    bool a4_from_tone = false; ///< begin by listening to a reference tone
};

/// Helps to tune, on the whole terminal or as JSON lines, until it is stopped.
[[nodiscard]] Result<void> run_live_tuning(const LiveTuningRequest& request, bool json);

} // namespace harpkeep::cli
