// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/today_model.hpp"
#include "ui/support/harp_knowledge.hpp"

namespace harpkeep::dashboard {

/// The page of today: every step judged, causes told apart, the verdict and what to do, by src/reason.
///
/// Given  knowledge  with a check
[[nodiscard]] TodayModel today_from(const ui::HarpKnowledge& knowledge, Date today);

} // namespace harpkeep::dashboard
