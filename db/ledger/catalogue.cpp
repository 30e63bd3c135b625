// SPDX-License-Identifier: MIT
#include "db/ledger/catalogue.hpp"

#include <algorithm>
#include <map>

namespace harpkeep::db {

namespace {

std::map<std::string, std::string> targets_of(const Database& database, const std::string& table)
{
    std::map<std::string, std::string> targets;
    auto query = database.prepare("SELECT \"from\", \"table\" FROM pragma_foreign_key_list(:table)");
    query.bind(":table", table);
    while (query.step()) {
        const std::string column = query.text();
        targets[column] = query.text();
    }
    return targets;
}

Points points_to(const Database& database, const std::string& target)
{
    if (target == "thing") return Points::to_thing;
    if (target == "action") return Points::to_action;
    if (target == "fact") return Points::to_fact;
    // A row that belongs to a content table (visit_work to visit) has the number of its fact.
    const auto next = targets_of(database, target);
    const auto found = next.find("fact_no");
    return found != next.end() ? points_to(database, found->second) : Points::nowhere;
}

TableInfo table_info(const Database& database, const std::string& table)
{
    const auto targets = targets_of(database, table);
    TableInfo info{table, {}, {}};
    auto query =
        database.prepare("SELECT name, type, pk, \"notnull\" FROM pragma_table_info(:table) ORDER BY cid");
    query.bind(":table", table);
    while (query.step()) {
        Column column;
        column.name = query.text();
        column.type = query.text();
        column.in_primary_key = query.integer() != 0;
        column.may_be_null = query.integer() == 0 && !column.in_primary_key;
        if (const auto target = targets.find(column.name); target != targets.end())
            column.points = points_to(database, target->second);
        info.columns.push_back(std::move(column));
    }
    if (const auto owner = targets.find("fact_no"); owner != targets.end() && owner->second != "fact")
        info.parent = owner->second;
    return info;
}

} // namespace

bool TableInfo::is_content() const
{
    return has_facts() && parent.empty() && columns.front().points == Points::to_fact &&
           columns.front().in_primary_key &&
           std::count_if(columns.begin(), columns.end(),
                         [](const Column& column) { return column.in_primary_key; }) == 1;
}

std::vector<TableInfo> catalogue(const Database& database)
{
    // Tables were made in the order of their references.
    std::vector<std::string> names;
    auto query =
        database.prepare("SELECT name FROM sqlite_schema "
                         "WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'open_%' "
                         "ORDER BY rowid");
    while (query.step()) names.push_back(query.text());
    std::vector<TableInfo> tables;
    for (const auto& name : names) tables.push_back(table_info(database, name));
    return tables;
}

std::string content_table_of(const std::string& kind)
{
    if (kind == "check") return "harp_check";
    return kind == "string" ? "mounted_string" : kind;
}

std::string kind_of_column(const std::string& column)
{
    for (const char* kind : {"harp", "room", "loan", "string", "reminder"})
        if (column == std::string{kind} + "_no") return kind;
    return {};
}

} // namespace harpkeep::db
