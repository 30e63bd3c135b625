// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "records/money.hpp"
#include "records/uuid.hpp"

#include <optional>
#include <string>

namespace harpkeep {

/// What the ledger holds about one harp as such; strings, checks and visits are records of their own.
struct HarpDetails {
    std::string name; ///< unique in a ledger, whatever its case
    HarpLayout layout;
    std::string nickname;
    std::string maker;
    std::string serial_number;
    std::optional<int> year_built;
    std::optional<Money> value;
    std::string photo_path;
    std::string remarks;

    bool operator==(const HarpDetails&) const = default;
};

struct HarpRecord {
    Uuid id;
    HarpDetails details;
};

} // namespace harpkeep
