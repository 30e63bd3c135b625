// SPDX-License-Identifier: MIT
#include "db/exchange/one_thing.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

constexpr std::size_t most_rows_shown = 60; // a check has thousands; --json prints all

Json json_of(const db::ThingContent& thing)
{
    Json json{{"id", to_string(thing.id)}, {"handle", db::handle_of(thing.id)}, {"thing", thing.kind}};
    for (const auto& [name, cell] : thing.columns) json[name] = json_or_null(cell);
    for (const db::BelongingRows& belonging : thing.belonging) {
        Json rows = Json::array();
        for (const auto& row : belonging.rows) {
            Json one;
            for (std::size_t i = 0; i < row.size(); ++i) one[belonging.heading[i]] = json_or_null(row[i]);
            rows.push_back(std::move(one));
        }
        json[belonging.table] = std::move(rows);
    }
    return json;
}

/// On one line, and not longer than a line is.
std::string shown(const db::Cell& cell)
{
    std::string text = cell.value_or("");
    for (char& character : text)
        if (character == '\n' || character == '\r' || character == '\t') character = ' ';
    constexpr std::size_t longest = 60;
    if (text.size() <= longest) return text;
    std::size_t end = longest;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
        --end; // never inside a character
    return text.substr(0, end) + "...";
}

void print_thing(const db::ThingContent& thing)
{
    print_line(fmt::format("{} {}", thing.kind, db::handle_of(thing.id)));
    for (const auto& [name, cell] : thing.columns)
        if (cell && !cell->empty()) print_line(fmt::format("  {:<32}{}", name, shown(cell)));
    for (const db::BelongingRows& belonging : thing.belonging) {
        print_line("");
        print_line(belonging.table);
        std::vector<Table::Column> heading;
        for (const std::string& name : belonging.heading) heading.push_back({name});
        Table table{heading};
        for (std::size_t i = 0; i < std::min(belonging.rows.size(), most_rows_shown); ++i) {
            std::vector<std::string> cells;
            for (const db::Cell& cell : belonging.rows[i]) cells.push_back(shown(cell));
            table.add_row(std::move(cells));
        }
        table.print();
        if (belonging.rows.size() > most_rows_shown)
            print_line(
                fmt::format("... {} more rows; --json prints all", belonging.rows.size() - most_rows_shown));
    }
}

void report(const Common& common, const db::ThingContent& thing)
{
    if (common.json)
        print_json(json_of(thing));
    else
        print_thing(thing);
}

struct ShowWords {
    std::string thing;
};

Result<void> show(const Common& common, const ShowWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto thing = db::thing_content(*ledger, words.thing);
    if (!thing) return failure(thing.error());
    report(common, *thing);
    return {};
}

struct CorrectWords {
    std::string thing;
    std::vector<std::string> changes;
    std::string why;
};

Result<void> correct(const Common& common, const CorrectWords& words)
{
    std::vector<std::pair<std::string, std::string>> changes;
    for (const std::string& change : words.changes) {
        const auto equals = change.find('=');
        if (equals == std::string::npos || equals == 0)
            return failure(ErrorCode::invalid_argument,
                           fmt::format("\"{}\" does not say what becomes what; write COLUMN=VALUE, as in "
                                       "removed_on=2026-03; `harpkeep show` shows the columns",
                                       change));
        changes.emplace_back(change.substr(0, equals), change.substr(equals + 1));
    }
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto thing = db::correct_thing(*ledger, ui::author(), words.thing, changes, words.why);
    if (!thing) return failure(thing.error());
    report(common, *thing);
    return {};
}

} // namespace

void add_command_show(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<ShowWords>(app, common, work, "show",
                                          "all that is noted of one thing, whatever it is", show);
    verb.app->add_option("HANDLE", verb.words->thing, "as the lists show it, or the name of a harp or a room")
        ->required();
}

void add_command_correct(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<CorrectWords>(
        app, common, work, "correct", "state one thing anew; what was stated before stays readable", correct);
    verb.app->add_option("HANDLE", verb.words->thing, "as the lists show it, or the name of a harp or a room")
        ->required();
    verb.app->add_option("CHANGE", verb.words->changes, "COLUMN=VALUE, as `harpkeep show` names the columns")
        ->required();
    add_reason_option(*verb.app, verb.words->why);
}

} // namespace harpkeep::cli
