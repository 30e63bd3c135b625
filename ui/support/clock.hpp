// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "units/moment.hpp"

namespace harpkeep::ui {

/// Now, with the offset of the computer's time zone. The only place where a clock is read.
[[nodiscard]] Moment now();

/// Now and the name of this computer: who writes into the ledger.
[[nodiscard]] db::Author author();

/// The offset of the computer's time zone at that local time, in minutes; for times typed without one.
[[nodiscard]] int local_offset_minutes(Date date, int hour, int minute);

} // namespace harpkeep::ui
