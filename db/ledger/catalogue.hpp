// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// What a column's foreign key points to, as far as numbers of rows are concerned.
enum class Points { nowhere, to_thing, to_fact, to_action };

struct Column {
    std::string name;
    std::string type; ///< INTEGER, REAL, TEXT or BLOB
    Points points = Points::nowhere;
    bool in_primary_key = false;
};

struct TableInfo {
    std::string name;
    std::vector<Column> columns;

    /// Whether its rows belong to facts; else they stand for themselves (attachment, thing_kind).
    [[nodiscard]] bool has_facts() const { return !columns.empty() && columns.front().name == "fact_no"; }
    /// Whether it holds one row for each fact: the content of a thing's statement.
    [[nodiscard]] bool is_content() const;
};

/// The tables of the ledger in an order in which each follows those it refers to, read from the schema
/// itself, so that merging, checking and exporting know a new table as soon as it is there. Checks under way
/// (open_check and its rows) belong to one copy of a ledger and are left out.
[[nodiscard]] std::vector<TableInfo> catalogue(const Database& database);

} // namespace harpkeep::db
