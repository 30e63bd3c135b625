// SPDX-License-Identifier: MIT
#include "db/exchange/record_tables.hpp"

#include "db/ledger/things.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "exchange/csv.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <ostream>

namespace harpkeep::db {

namespace {

/// Kinds by the table that holds their content.
std::map<std::string, std::string> kinds_by_table(const Database& database)
{
    std::map<std::string, std::string> kinds;
    auto query = database.prepare("SELECT name FROM thing_kind");
    while (query.step()) {
        const std::string kind = query.text();
        kinds[content_table_of(kind)] = kind;
    }
    return kinds;
}

std::string select_records(const RecordTable& table)
{
    std::vector<std::string> parts, order{"1"};
    if (!table.kind.empty()) parts.emplace_back("c.id");
    for (const ExchangeColumn& column : table.columns) parts.push_back(select_of(column));
    for (const Column& column : table.info.columns)
        if (column.in_primary_key && column.name != "fact_no") order.push_back("x." + column.name);
    return fmt::format("SELECT {} FROM {} x {} ORDER BY {}", fmt::join(parts, ", "), table.info.name,
                       table.kind.empty() ? "" : "JOIN current_content c USING (fact_no)",
                       fmt::join(order, ", "));
}

} // namespace

std::vector<std::string> RecordTable::heading() const
{
    std::vector<std::string> names;
    if (!first_column.empty()) names.push_back(first_column);
    for (const ExchangeColumn& column : columns) names.push_back(column.name);
    return names;
}

std::vector<RecordTable> record_tables(const Database& database)
{
    const auto kinds = kinds_by_table(database);
    std::vector<RecordTable> tables;
    for (TableInfo& info : catalogue(database)) {
        RecordTable table;
        table.name = info.name;
        table.columns = exchange_columns(info);
        table.is_content = info.is_content();
        if (table.is_content) {
            table.name = table.kind = kinds.at(info.name);
            table.first_column = "key";
        } else if (!info.parent.empty()) {
            table.kind = table.first_column = kinds.at(info.parent);
        } else if (info.name != "attachment") {
            continue; // the frame of facts, which the forms of a whole ledger have
        }
        std::erase_if(table.columns,
                      [](const ExchangeColumn& column) { return column.stored.front() == "fact_no"; });
        table.info = std::move(info);
        tables.push_back(std::move(table));
    }
    return tables;
}

Result<std::vector<RecordTable>> record_tables(const Ledger& ledger)
{
    return guarded("reading the tables", [&] { return record_tables(ledger.database()); });
}

ReferenceNames::ReferenceNames(const Database& database)
{
    auto query = database.prepare(
        "WITH named AS (SELECT id, name, name_key FROM harp JOIN current_content USING (fact_no) UNION ALL "
        "SELECT id, name, name_key FROM room JOIN current_content USING (fact_no)) "
        "SELECT id, name FROM named GROUP BY name_key HAVING count(*) = 1");
    while (query.step()) {
        const std::string key = to_string(query.uuid());
        const std::string name = query.text();
        if (!looks_like_handle(name) && !name.starts_with('#')) names_[key] = name;
    }
}

const std::string& ReferenceNames::of(const std::string& key) const
{
    const auto found = names_.find(key);
    return found == names_.end() ? key : found->second;
}

Result<void> write_records(const Ledger& ledger, const RecordTable& table, std::ostream& stream)
{
    return snapshot(ledger, "writing the table " + table.name, [&] {
        const ReferenceNames names{ledger.database()};
        stream << csv_row(table.heading());
        auto query = ledger.database().prepare(select_records(table));
        while (query.step()) {
            std::vector<std::string> cells;
            if (!table.kind.empty()) {
                const std::string key = to_string(query.uuid());
                cells.push_back(table.is_content ? key : guarded_cell(names.of(key)));
            }
            for (const ExchangeColumn& column : table.columns) {
                const Cell cell = read_cell(query, column);
                const std::string text = cell.value_or("");
                cells.push_back(guarded_cell(column.form == CellForm::reference ? names.of(text) : text));
            }
            stream << csv_row(cells);
        }
        if (!stream) fail(ErrorCode::unavailable, "it cannot be written; see whether the disk is full");
    });
}

} // namespace harpkeep::db
