// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/reminder_record.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// Something to be reminded of. Refused: drift, visits or checks without a harp they belong to.
[[nodiscard]] Result<Uuid> add_reminder(Ledger& ledger, const Author& author, const Reminder& reminder);
[[nodiscard]] Result<void> change_reminder(Ledger& ledger, const Author& author, const Uuid& reminder_id,
                                           const Reminder& reminder, const std::string& reason);

/// It was done; one that is due once is then over, one that repeats counts from here.
[[nodiscard]] Result<Uuid> reminder_done(Ledger& ledger, const Author& author, const Uuid& reminder_id,
                                         Date done_on, const std::string& remarks);

/// All reminders, those that are over too, in the order in which they were made.
[[nodiscard]] Result<std::vector<ReminderRecord>> reminders(const Ledger& ledger);

} // namespace harpkeep::db
