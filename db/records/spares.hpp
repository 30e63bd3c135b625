// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/spare_record.hpp"

#include <vector>

namespace harpkeep::db {

/// Strings come into stock or leave it. Refused: more leave than there are, a date in the future.
[[nodiscard]] Result<Uuid> move_spares(Ledger& ledger, const Author& author, const SpareMovement& movement);

/// The stock is counted: a movement makes the ledger agree. Nothing is written when it agrees already.
[[nodiscard]] Result<void> count_spares(Ledger& ledger, const Author& author, SpareMovement counted_kind,
                                        int found);

/// What is in stock, lowest place first; kinds of which there are none are left out.
[[nodiscard]] Result<std::vector<SpareStock>> spare_stock(const Ledger& ledger);

/// All movements, oldest first.
[[nodiscard]] Result<std::vector<SpareMovementRecord>> spare_movements(const Ledger& ledger);

} // namespace harpkeep::db
