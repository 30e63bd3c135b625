// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/live_model.hpp"

namespace harpkeep::dashboard::staged {

// Live pages as they look in each phase, without a harp that sounds: every figure is invented.

[[nodiscard]] GuidedModel guided(LivePhase phase, Way way);
[[nodiscard]] TuningModel tuning(bool listening, double moment_s);

} // namespace harpkeep::dashboard::staged
