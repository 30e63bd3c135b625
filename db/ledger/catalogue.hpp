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
    bool may_be_null = false;
};

struct TableInfo {
    std::string name;
    std::vector<Column> columns;

    /// Whether its rows belong to facts; else they stand for themselves (attachment, thing_kind).
    [[nodiscard]] bool has_facts() const { return !columns.empty() && columns.front().name == "fact_no"; }
    /// The content table whose rows its own rows belong to: visit of visit_work; empty for a content table.
    std::string parent;

    /// Whether it holds one row for each fact: the content of a thing's statement.
    [[nodiscard]] bool is_content() const;
};

/// The tables of the ledger in an order in which each follows those it refers to, read from the schema
/// itself, so that merging, checking and exporting know a new table as soon as it is there. Checks under way
/// (open_check and its rows) belong to one copy of a ledger and are left out.
[[nodiscard]] std::vector<TableInfo> catalogue(const Database& database);

/// The table with the content of things of this kind: "harp_check" of "check".
[[nodiscard]] std::string content_table_of(const std::string& kind);

/// What kind of thing a column of this name refers to ("harp" of harp_no); empty for about_no, which refers
/// to any, and for columns that refer to no thing.
[[nodiscard]] std::string kind_of_column(const std::string& column);

} // namespace harpkeep::db
