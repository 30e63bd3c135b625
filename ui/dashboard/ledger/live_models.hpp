// SPDX-License-Identifier: MIT
#pragma once

#include "reason/tolerance.hpp"
#include "ui/dashboard/models/live_model.hpp"
#include "ui/support/live_check.hpp"
#include "ui/support/live_tuning.hpp"

#include <vector>

namespace harpkeep::dashboard {

[[nodiscard]] LivePhase phase_of(const ui::LiveCheckView& live);

/// What the page of a guided check shows of a live check.
///
/// Given  recent  from recent_readings(), newest first
[[nodiscard]] GuidedModel guided_from(const HarpLayout& layout, const ui::LiveCheckView& live,
                                      std::vector<AcceptedReading> recent);

/// The last readings that count, newest first, each with the step it closes and how that stands.
[[nodiscard]] std::vector<AcceptedReading> recent_readings(const HarpLayout& layout,
                                                           const GuidedCheckState& state,
                                                           const ToleranceSettings& tolerance,
                                                           std::size_t most);

/// How the room sounded, with what to do about it.
[[nodiscard]] RoomSound room_sound(const RoomReport& report);

/// What the tuning page shows while a session listens.
[[nodiscard]] TuningModel tuning_from(const HarpLayout& layout, const ui::LiveTuningView& live,
                                      const ui::LiveTuningRequest& request);

/// The tuning page before a session: every string open, its target as asked.
[[nodiscard]] TuningModel tuning_before(const HarpLayout& layout, const TuningRequest& request);

} // namespace harpkeep::dashboard
