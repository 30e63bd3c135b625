// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/catalogue.hpp"
#include "db/ledger/ledger.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <set>
#include <string>
#include <vector>

namespace harpkeep::test {

/// Adds what is left of the query, each row as text after the name of its table.
inline void add_rows(std::multiset<std::string>& rows, const std::string& table, db::Statement& query)
{
    while (query.step()) {
        std::string row = table;
        for (int i = 0; i < query.column_count(); ++i) row += "|" + query.optional_text().value_or("NULL");
        rows.insert(row);
    }
}

/// Every row of a ledger as text, numbers of rows replaced by the keys they stand for: two ledgers that hold
/// the same facts give the same set. The ledger's own identity is left out.
inline std::multiset<std::string> dump(const db::Ledger& ledger)
{
    const auto key_of = [](db::Points points, const std::string& column) {
        const char* table =
            points == db::Points::to_thing ? "thing" : (points == db::Points::to_fact ? "fact" : "action");
        return fmt::format("(SELECT hex(k.id) FROM {0} k WHERE k.{0}_no = t.{1})", table, column);
    };
    std::multiset<std::string> rows;
    for (const db::TableInfo& table : db::catalogue(ledger.database())) {
        if (table.name == "ledger") continue;
        std::vector<std::string> columns;
        for (const db::Column& column : table.columns) {
            if (column.points != db::Points::nowhere)
                columns.push_back(key_of(column.points, column.name));
            else if (column.name != table.name + "_no") // a number of this file only
                columns.push_back(fmt::format("quote(t.{})", column.name));
        }
        auto query = ledger.database().prepare(
            fmt::format("SELECT {} FROM {} t", fmt::join(columns, ", "), table.name));
        add_rows(rows, table.name, query);
    }
    return rows;
}

} // namespace harpkeep::test
