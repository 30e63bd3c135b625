// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/conflicts.hpp"

namespace harpkeep::db {

// What no function of db/records writes, but two ledgers put together or rows from a file can amount to. Both
// throw LedgerFailure.

/// A string that came off before it was put on, one on a place that the harp does not have, more spares used
/// than there were, and the like.
void find_rule_breaks(const Database& database, std::vector<Conflict>& found);

/// Things that are said to have happened after `now`.
[[nodiscard]] std::vector<Conflict> find_future_dates(const Database& database, Moment now);

} // namespace harpkeep::db
