// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "upkeep/due_work.hpp"

#include <optional>
#include <vector>

namespace harpkeep::db {

/// What is known of the harps that are not gone, or of one of them, as far as work can follow from it; for
/// due_work().
[[nodiscard]] Result<std::vector<HarpUpkeep>> harp_upkeep(const Ledger& ledger,
                                                          const std::optional<Uuid>& harp_id = std::nullopt);

} // namespace harpkeep::db
