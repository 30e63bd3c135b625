// SPDX-License-Identifier: MIT
#pragma once

#include "records/string_record.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// Why the number of spares changed.
enum class SpareCause { bought, used, lost, counted };
[[nodiscard]] std::string_view spare_cause_name(SpareCause cause);
[[nodiscard]] std::optional<SpareCause> spare_cause_from_name(std::string_view name);

/// Strings that came into stock (change > 0) or left it (change < 0).
struct SpareMovement {
    std::optional<Uuid> harp_id; ///< absent: for any harp
    StringPlace place;
    StringMake make;
    std::string batch;
    int change = 0;
    SpareCause cause = SpareCause::bought;
    Date moved_on;
    std::optional<Money> cost;     ///< of all of them together
    std::optional<Uuid> string_id; ///< the string that was put on
    std::string remarks;

    bool operator==(const SpareMovement&) const = default;
};
using SpareMovementRecord = Record<SpareMovement>;

/// How many of one kind are in stock. Supplier and batch do not make a kind.
struct SpareStock {
    std::optional<Uuid> harp_id;
    StringPlace place;
    StringMake make;
    int count = 0;
};

} // namespace harpkeep
