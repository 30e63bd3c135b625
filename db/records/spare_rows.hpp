// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/action.hpp"
#include "records/spare_record.hpp"

namespace harpkeep::db {

// What a string's mounting does to the stock; throws LedgerFailure.

void insert_movement(const Action& action, FactNo fact, const SpareMovement& movement);

/// One of the string's kind leaves the stock; refused when there is none. A spare without a diameter fits
/// any.
void use_spare(Action& action, ThingNo harp, ThingNo string, const MountedString& mounted);

} // namespace harpkeep::db
