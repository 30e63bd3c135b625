// SPDX-License-Identifier: MIT
#pragma once

#include "records/record.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>

namespace harpkeep {

struct Room {
    std::string name; ///< unique in a ledger, whatever its case
    std::string remarks;

    bool operator==(const Room&) const = default;
};
using RoomRecord = Record<Room>;

/// From a date on a harp stands in a room; without a room it stands in none of them.
struct Placement {
    Uuid harp_id;
    std::optional<Uuid> room_id;
    Date since;

    bool operator==(const Placement&) const = default;
};
using PlacementRecord = Record<Placement>;

} // namespace harpkeep
