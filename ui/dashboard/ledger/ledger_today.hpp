// SPDX-License-Identifier: MIT
#pragma once

#include "reason/drift.hpp"
#include "ui/dashboard/models/today_model.hpp"
#include "ui/support/harp_knowledge.hpp"

namespace harpkeep::dashboard {

/// The page of today: every step judged, causes told apart, the verdict and what to do, by src/reason.
///
/// Given  knowledge  with a check
///        drift      fitted to it (fit_history())
[[nodiscard]] TodayModel today_from(const ui::HarpKnowledge& knowledge, const std::optional<DriftFit>& drift,
                                    Date today);

} // namespace harpkeep::dashboard
