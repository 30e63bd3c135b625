// SPDX-License-Identifier: MIT
#include "db/exchange/one_thing.hpp"

#include "db/exchange/record_import.hpp"
#include "db/exchange/record_tables.hpp"
#include "db/exchange/reference_finder.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "exchange/csv.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

std::vector<std::vector<Cell>> rows_of_thing(const Database& database, const RecordTable& table,
                                             ThingNo thing)
{
    const ReferenceNames names{database};
    std::vector<std::string> parts, order{"1"};
    for (const ExchangeColumn& column : table.columns) parts.push_back(select_of(column));
    for (const Column& column : table.info.columns)
        if (column.in_primary_key && column.name != "fact_no") order.push_back("x." + column.name);
    if (order.size() > 1) order.erase(order.begin());
    auto query = database.prepare(fmt::format(
        "SELECT {} FROM {} x JOIN current_content c USING (fact_no) WHERE c.thing_no = :thing_no ORDER BY {}",
        fmt::join(parts, ", "), table.info.name, fmt::join(order, ", ")));
    query.bind(":thing_no", thing.value);
    std::vector<std::vector<Cell>> rows;
    while (query.step()) {
        std::vector<Cell> row;
        for (const ExchangeColumn& column : table.columns) {
            Cell cell = read_cell(query, column);
            if (cell && column.form == CellForm::reference) cell = names.of(*cell);
            row.push_back(std::move(cell));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<std::string> names_of(const RecordTable& table)
{
    std::vector<std::string> names;
    for (const ExchangeColumn& column : table.columns) names.push_back(column.name);
    return names;
}

ThingRef found_thing(const Database& database, const std::string& name)
{
    const auto thing = ReferenceFinder{database}.find(name, "");
    if (!thing) fail(ErrorCode::not_found, thing.error() + "; `harpkeep history` and the lists show handles");
    auto query = database.prepare("SELECT id, kind FROM thing WHERE thing_no = :thing_no");
    query.bind(":thing_no", thing->value).step();
    const Uuid id = query.uuid();
    return {id, query.text()};
}

ThingContent content_of(const Database& database, const ThingRef& thing)
{
    const ThingNo number = current_thing(database, thing.id, thing.kind);
    ThingContent content{thing.id, thing.kind, {}, {}};
    for (const RecordTable& table : record_tables(database)) {
        if (table.kind != thing.kind) continue;
        auto rows = rows_of_thing(database, table, number);
        const auto names = names_of(table);
        if (!table.is_content) {
            if (!rows.empty()) content.belonging.push_back({table.name, names, std::move(rows)});
            continue;
        }
        if (rows.size() != 1) fail(ErrorCode::corrupt, "it has no content; see `harpkeep ledger verify`");
        for (std::size_t i = 0; i < names.size(); ++i)
            content.columns.emplace_back(names[i], std::move(rows[0][i]));
    }
    return content;
}

} // namespace

Result<ThingRef> thing_named(const Ledger& ledger, const std::string& name)
{
    return snapshot(ledger, "looking for " + name, [&] { return found_thing(ledger.database(), name); });
}

Result<ThingRef> thing_ever_named(const Ledger& ledger, const std::string& name)
{
    auto now = thing_named(ledger, name);
    if (now || !looks_like_handle(name)) return now;
    return snapshot(ledger, "looking for " + name, [&] {
        const auto key = uuid_from_string(name);
        auto query = ledger.database().prepare("SELECT id, kind FROM thing WHERE id = :id OR "
                                               "(:id IS NULL AND substr(hex(id), 25) = upper(:handle)) LIMIT 2");
        query.bind(":id", key).bind(":handle", name);
        if (!query.step()) throw LedgerFailure{now.error()};
        const Uuid id = query.uuid();
        const ThingRef found{id, query.text()};
        if (query.step()) fail(ErrorCode::refused, "the handle means more than one thing; give the whole key");
        return found;
    });
}

Result<ThingContent> thing_content(const Ledger& ledger, const std::string& name)
{
    const auto thing = thing_named(ledger, name);
    if (!thing) return failure(thing.error());
    return snapshot(ledger, "reading " + name, [&] { return content_of(ledger.database(), *thing); });
}

Result<ThingContent> correct_thing(Ledger& ledger, const Author& author, const std::string& name,
                                   const std::vector<std::pair<std::string, std::string>>& changes,
                                   const std::string& reason)
{
    const auto thing = thing_named(ledger, name);
    if (!thing) return failure(thing.error());
    std::vector<std::string> heading{"key"}, row{to_string(thing->id)};
    for (const auto& [column, value] : changes) {
        heading.push_back(column);
        row.push_back(guarded_cell(value));
    }
    const std::string what = fmt::format("corrected the {} {}", thing->kind, handle_of(thing->id));
    const auto done = import_records(ledger, author, {{"", thing->kind, csv_row(heading) + csv_row(row)}},
                                     {.what = what, .reason = reason});
    if (!done) return failure(done.error());
    return snapshot(ledger, "reading " + name, [&] { return content_of(ledger.database(), *thing); });
}

} // namespace harpkeep::db
