// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "upkeep/due_work.hpp"

#include <string>
#include <vector>

namespace harpkeep::ui {

/// Due work as tasks and the visits of these harps as events, for any calendar program.
///
/// Returns  an iCalendar file; the same work of the same harp has the same UID whenever it is written, so
/// that a
///          calendar replaces its entry
[[nodiscard]] Result<std::string> due_calendar(const db::Ledger& ledger, const std::vector<HarpUpkeep>& harps,
                                               const std::vector<DueItem>& items, Moment written);

} // namespace harpkeep::ui
