// SPDX-License-Identifier: MIT
#include "db/exchange/ledger_rows.hpp"

#include "base/expects.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/transaction.hpp"
#include "records/name_key.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <regex>

namespace harpkeep::db {

namespace {

std::string select_rows(const ExchangeTable& table)
{
    std::vector<std::string> parts;
    for (const ExchangeColumn& column : table.columns) parts.push_back(select_of(column));
    std::vector<std::string> order;
    for (const Column& column : table.info.columns)
        if (column.in_primary_key) order.push_back("x." + column.name);
    return fmt::format("SELECT {} FROM {} x ORDER BY {}", fmt::join(parts, ", "), table.info.name,
                       fmt::join(order, ", "));
}

std::string insert_row(const ExchangeTable& table, bool with_name_key)
{
    std::vector<std::string> names, parameters;
    for (const ExchangeColumn& column : table.columns)
        for (const std::string& stored : column.stored) {
            names.push_back(stored);
            parameters.push_back(":" + stored);
        }
    if (with_name_key) {
        names.emplace_back("name_key");
        parameters.emplace_back(":name_key");
    }
    return fmt::format("INSERT INTO {} ({}) VALUES ({})", table.info.name, fmt::join(names, ", "),
                       fmt::join(parameters, ", "));
}

bool has_name_key(const TableInfo& table)
{
    for (const Column& column : table.columns)
        if (column.name == "name_key") return true;
    return false;
}

} // namespace

std::vector<ExchangeTable> exchange_tables(const Database& database)
{
    std::vector<ExchangeTable> tables;
    for (TableInfo& info : catalogue(database)) {
        auto columns = exchange_columns(info);
        tables.push_back({std::move(info), std::move(columns)});
    }
    return tables;
}

void send_rows(const Database& database, RowSink& sink)
{
    const Transaction snapshot{database, Transaction::Kind::read};
    for (const ExchangeTable& table : exchange_tables(database)) {
        sink.begin_table(table);
        auto query = database.prepare(select_rows(table));
        std::vector<Cell> cells(table.columns.size());
        while (query.step()) {
            for (std::size_t i = 0; i < cells.size(); ++i) cells[i] = read_cell(query, table.columns[i]);
            sink.row(table, cells);
        }
        sink.end_table();
    }
}

RowLoader::RowLoader(const Database& empty_ledger)
    : database_(empty_ledger), tables_(exchange_tables(empty_ledger))
{
    find_.emplace(Points::to_thing, database_.prepare("SELECT thing_no FROM thing WHERE id = :id"));
    find_.emplace(Points::to_fact, database_.prepare("SELECT fact_no FROM fact WHERE id = :id"));
    find_.emplace(Points::to_action, database_.prepare("SELECT action_no FROM action WHERE id = :id"));
}

void RowLoader::begin_table(const ExchangeTable& table)
{
    table_ = &table;
    insert_.emplace(database_.prepare(insert_row(table, has_name_key(table.info))));
}

tl::expected<std::int64_t, std::string> RowLoader::find_row(const ExchangeColumn& column,
                                                            const std::string& key)
{
    const auto id = uuid_from_string(key);
    if (!id) return tl::unexpected<std::string>(fmt::format("\"{}\" is no key", key));
    auto& find = find_.at(column.points);
    find.reset();
    find.bind(":id", *id);
    if (find.step()) {
        const auto number = find.integer();
        find.reset();
        return number;
    }
    refers_to_refused_ = refers_to_refused_ || refused_keys_.contains(to_string(*id));
    return tl::unexpected<std::string>(
        fmt::format("{} is no row that came before; tables and rows stand after those they refer to", key));
}

void RowLoader::bind_derived(Statement& insert, const std::vector<Cell>& cells) const
{
    if (!has_name_key(table_->info)) return;
    for (std::size_t i = 0; i < cells.size(); ++i)
        if (table_->columns[i].name == "name") insert.bind(":name_key", name_key(cells[i].value_or("")));
}

void RowLoader::run(const std::vector<Cell>& cells, std::vector<std::vector<StoredValue>>& values,
                    std::vector<RowProblem>& problems)
{
    for (std::size_t i = 0; i < values.size(); ++i)
        for (std::size_t j = 0; j < values[i].size(); ++j)
            bind_value(*insert_, (":" + table_->columns[i].stored[j]).c_str(), values[i][j]);
    bind_derived(*insert_, cells);
    try {
        insert_->run();
    } catch (const LedgerFailure& caught) {
        if (caught.error().code != ErrorCode::refused) throw;
        insert_.emplace(database_.prepare(insert_row(*table_, has_name_key(table_->info))));
        const std::string words = rule_words(caught.error().message);
        problems.push_back({column_spoken_of(table_->columns, words), as_exchanged(table_->columns, words)});
        const bool lacks_owner =
            !table_->info.parent.empty() && cells.front() && refused_contents_.contains(*cells.front());
        refers_to_refused_ = refers_to_refused_ || lacks_owner;
    }
}

std::vector<RowProblem> RowLoader::load(const std::vector<Cell>& cells)
{
    HARPKEEP_EXPECTS(table_ != nullptr && cells.size() == table_->columns.size());
    refers_to_refused_ = false;
    std::vector<RowProblem> problems;
    std::vector<std::vector<StoredValue>> values;
    const FindRow find = [&](const ExchangeColumn& column, const std::string& key) {
        return find_row(column, key);
    };
    for (std::size_t i = 0; i < cells.size(); ++i) {
        auto value = stored_values(table_->columns[i], cells[i], find);
        if (value)
            values.push_back(std::move(*value));
        else
            problems.push_back({i, value.error()});
    }
    if (problems.empty()) run(cells, values, problems);
    if (problems.empty()) return problems;
    note_refused(cells);
    if (refers_to_refused_) problems.clear();
    return problems;
}

void RowLoader::note_refused(const std::vector<Cell>& cells)
{
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (!cells[i]) continue;
        if (table_->columns[i].form == CellForm::key) refused_keys_.insert(*cells[i]);
        if (table_->info.is_content() && table_->columns[i].name == "fact")
            refused_contents_.insert(*cells[i]);
    }
}

std::string rule_words(const std::string& message)
{
    const auto found = message.find("a rule of the ledger");
    return found == std::string::npos ? message : message.substr(found);
}

std::string as_exchanged(const std::vector<ExchangeColumn>& columns, std::string words)
{
    for (const ExchangeColumn& column : columns)
        for (const std::string& stored : column.stored)
            words = std::regex_replace(words, std::regex{"\\b" + stored + "\\b"}, column.name);
    return words;
}

std::size_t column_spoken_of(const std::vector<ExchangeColumn>& columns, const std::string& words)
{
    std::size_t found = 0, longest = 0;
    for (std::size_t i = 0; i < columns.size(); ++i)
        for (const std::string& stored : columns[i].stored)
            if (stored.size() > longest && words.find(stored) != std::string::npos) {
                found = i;
                longest = stored.size();
            }
    return found;
}

} // namespace harpkeep::db
