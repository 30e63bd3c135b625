// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "records/money.hpp"
#include "records/record.hpp"
#include "units/date.hpp"

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
    std::optional<Date> left_on; ///< when it was sold or given away; its record stays

    bool operator==(const HarpDetails&) const = default;
};

using HarpRecord = Record<HarpDetails>;

} // namespace harpkeep
