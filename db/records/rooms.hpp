// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/room_record.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::db {

/// Refused when a room of that name is there, whatever its case.
[[nodiscard]] Result<Uuid> add_room(Ledger& ledger, const Author& author, const Room& room);
[[nodiscard]] Result<void> change_room(Ledger& ledger, const Author& author, const Uuid& room_id,
                                       const Room& room, const std::string& reason);

/// All rooms, by name.
[[nodiscard]] Result<std::vector<RoomRecord>> rooms(const Ledger& ledger);
[[nodiscard]] Result<RoomRecord> room_named(const Ledger& ledger, std::string_view name);

/// From a date on a harp stands in a room, or in none of them. Refused: a date in the future.
[[nodiscard]] Result<Uuid> place_harp(Ledger& ledger, const Author& author, const Placement& placement);

/// Where a harp stood, oldest first.
[[nodiscard]] Result<std::vector<PlacementRecord>> placements_of(const Ledger& ledger, const Uuid& harp_id);

/// Where every harp stands now: the youngest placement of each that has one.
[[nodiscard]] Result<std::vector<PlacementRecord>> current_placements(const Ledger& ledger);

} // namespace harpkeep::db
