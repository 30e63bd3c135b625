// SPDX-License-Identifier: MIT
#include "db/ledger/things.hpp"

#include "db/ledger/catalogue.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

constexpr std::size_t handle_digits = 8;

std::string upper_case(std::string_view text)
{
    std::string upper{text};
    for (char& letter : upper)
        if (letter >= 'a' && letter <= 'f') letter = static_cast<char>(letter - 'a' + 'A');
    return upper;
}

bool is_hexadecimal(std::string_view text)
{
    return std::all_of(text.begin(), text.end(), [](char digit) {
        return (digit >= '0' && digit <= '9') || (digit >= 'a' && digit <= 'f') ||
               (digit >= 'A' && digit <= 'F');
    });
}

ThingRef found_thing(const Ledger& ledger, Statement& query, std::string_view text)
{
    std::vector<ThingRef> found;
    while (query.step()) {
        const Uuid id = query.uuid();
        found.push_back({id, query.text()});
    }
    if (found.empty())
        fail(ErrorCode::not_found,
             fmt::format("nothing in {} has the handle {}; `harpkeep history` shows handles", ledger.path(),
                         text));
    if (found.size() > 1) {
        std::vector<std::string> keys;
        for (const ThingRef& thing : found) keys.push_back(thing.kind + " " + to_string(thing.id));
        fail(ErrorCode::refused,
             fmt::format("the handle {} means more than one thing; give the whole key: {}", text,
                         fmt::join(keys, ", ")));
    }
    return found.front();
}

/// Which of the rows that refer to a thing cannot stand without it.
enum class Tie { loose, goes_with_it, needs_it };

Tie tie_of(const std::string& column, std::string_view kind)
{
    if (column == "string_no" || column == "loan_no" || column == "reminder_no") return Tie::goes_with_it;
    if (column == "harp_no" || column == "room_no") return Tie::needs_it;
    return column == "about_no" && (kind == "harp" || kind == "room") ? Tie::needs_it : Tie::loose;
}

struct Dependents {
    std::vector<ThingNo> going_with_it;
    std::vector<std::string> needing_it; ///< "47 strings"
};

/// What the things of a content table are called: "string removal".
std::string words_for(const Database& database, const std::string& table)
{
    auto query = database.prepare("SELECT name FROM thing_kind");
    while (query.step()) {
        std::string kind = query.text();
        if (content_table_of(kind) != table) continue;
        std::replace(kind.begin(), kind.end(), '_', ' ');
        return kind == "climate series" ? "climate record" : kind;
    }
    return table;
}

Dependents dependents_of(const Database& database, ThingNo thing, std::string_view kind)
{
    Dependents dependents;
    for (const TableInfo& table : catalogue(database)) {
        if (!table.is_content()) continue;
        for (const Column& column : table.columns) {
            if (column.points != Points::to_thing) continue;
            const Tie tie = tie_of(column.name, kind);
            if (tie == Tie::loose) continue;
            auto query = database.prepare(
                fmt::format("SELECT thing_no FROM {} JOIN current_content USING (fact_no) WHERE {} = :no",
                            table.name, column.name));
            query.bind(":no", thing.value);
            std::size_t count = 0;
            for (; query.step(); ++count)
                if (tie == Tie::goes_with_it) dependents.going_with_it.push_back({query.integer()});
            if (tie == Tie::needs_it && count > 0)
                dependents.needing_it.push_back(
                    fmt::format("{} {}{}", count, words_for(database, table.name), count == 1 ? "" : "s"));
        }
    }
    return dependents;
}

} // namespace

std::string handle_of(const Uuid& id)
{
    const std::string text = to_string(id);
    return text.substr(text.size() - handle_digits);
}

bool looks_like_handle(std::string_view text)
{
    return (text.size() == handle_digits && is_hexadecimal(text)) || uuid_from_string(text).has_value();
}

Result<ThingRef> thing_with_handle(const Ledger& ledger, std::string_view text)
{
    return snapshot(ledger, fmt::format("looking for {}", text), [&] {
        const Database& database = ledger.database();
        if (const auto id = uuid_from_string(text)) {
            auto query = database.prepare(
                "SELECT id, kind FROM thing JOIN current_fact USING (thing_no) WHERE id = :id");
            query.bind(":id", *id);
            return found_thing(ledger, query, text);
        }
        if (!looks_like_handle(text))
            fail(ErrorCode::invalid_argument,
                 fmt::format("\"{}\" is no handle; a handle has eight digits, as in 0c07398f", text));
        auto query = database.prepare("SELECT id, kind FROM thing JOIN current_fact USING (thing_no) "
                                      "WHERE substr(hex(id), 25) = :handle ORDER BY id");
        query.bind(":handle", upper_case(text));
        return found_thing(ledger, query, text);
    });
}

Result<void> make_void(Ledger& ledger, const Author& author, const Uuid& id, const std::string& reason)
{
    const std::string what = "voided " + handle_of(id);
    return guarded_action(what, [&] {
        if (reason.empty()) fail(ErrorCode::invalid_argument, "a reason is needed; say why it does not hold");
        const Database& database = ledger.database();
        Action action{ledger, author, what};
        auto query = database.prepare(
            "SELECT thing_no, kind FROM thing JOIN current_fact USING (thing_no) WHERE id = :id");
        query.bind(":id", id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such thing, or it is void already");
        const ThingNo thing{query.integer()};
        const std::string kind = query.text();
        query.reset();
        const Dependents dependents = dependents_of(database, thing, kind);
        if (!dependents.needing_it.empty())
            fail(ErrorCode::refused, fmt::format("the {} is still needed by {}; void these first, or keep it",
                                                 kind, fmt::join(dependents.needing_it, ", ")));
        action.make_void(thing, reason);
        for (const ThingNo dependent : dependents.going_with_it) action.make_void(dependent, reason);
        action.commit();
    });
}

ThingNo current_thing(const Database& database, const Uuid& id, std::string_view kind)
{
    auto query = database.prepare(
        "SELECT thing_no FROM thing JOIN current_fact USING (thing_no) WHERE id = :id AND kind = :kind");
    query.bind(":id", id).bind(":kind", kind);
    if (!query.step())
        fail(ErrorCode::not_found, fmt::format("the ledger has no such {}, or it is void", kind));
    return {query.integer()};
}

} // namespace harpkeep::db
