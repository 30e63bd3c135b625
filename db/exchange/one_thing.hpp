// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/exchange_column.hpp"
#include "db/ledger/things.hpp"

#include <string>
#include <utility>
#include <vector>

namespace harpkeep::db {

/// Rows that belong to a thing: the work of a visit, the string places of a harp.
struct BelongingRows {
    std::string table;
    std::vector<std::string> heading;
    std::vector<std::vector<Cell>> rows;
};

/// All that holds of one thing, with names, forms and units as in exchanged tables.
struct ThingContent {
    Uuid id;
    std::string kind; ///< as in table thing_kind; also the name of its record table
    std::vector<std::pair<std::string, Cell>> columns;
    std::vector<BelongingRows> belonging; ///< tables in which it has rows
};

/// The thing that holds now and has this handle or key, or is the harp or room of this name.
[[nodiscard]] Result<ThingRef> thing_named(const Ledger& ledger, const std::string& name);

/// The same, but a handle or key may be that of a thing that is void: for its history.
[[nodiscard]] Result<ThingRef> thing_ever_named(const Ledger& ledger, const std::string& name);

/// Given  name  as for thing_named()
[[nodiscard]] Result<ThingContent> thing_content(const Ledger& ledger, const std::string& name);

/// States a thing anew with some columns changed; all rules hold that hold for the commands.
///
/// Given    changes  columns and what is to stand in them, as in exchanged tables
/// Returns  what it holds then
[[nodiscard]] Result<ThingContent>
correct_thing(Ledger& ledger, const Author& author, const std::string& name,
              const std::vector<std::pair<std::string, std::string>>& changes, const std::string& reason);

} // namespace harpkeep::db
