// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "harp/string_place.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// One event in the life of a harp.
struct TimelineEntry {
    Date on;
    std::string kind; ///< as in table thing_kind: "check", "visit", "string", ...
    Uuid id;
    std::optional<StringPlace> place;
    std::string words; ///< one line in plain words
};

/// All that happened to a harp, or to one of its string places, oldest first: checks, visits, strings put on
/// and taken off, rooms, loans, notes.
[[nodiscard]] Result<std::vector<TimelineEntry>> timeline(const Ledger& ledger, const Uuid& harp_id,
                                                          std::optional<StringPlace> place = std::nullopt);

} // namespace harpkeep::db
