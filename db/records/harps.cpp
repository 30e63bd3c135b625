// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "records/name_key.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

constexpr std::string_view select_harps =
    "SELECT id, fact_no, name, kind, nickname, maker, serial_number, "
    "year_built, value_minor, value_currency, "
    "photo_path, remarks, left_on FROM harp JOIN current_content USING (fact_no) ";

std::string key_of(std::string_view name)
{
    const auto key = name_key(name);
    if (!key)
        fail(ErrorCode::invalid_argument,
             fmt::format("\"{}\" cannot be the name of a harp; give some letters, in UTF-8, on one line",
                         name));
    return *key;
}

/// Refuses a name that another harp than the one of this fact has.
void expect_free_name(const Database& database, std::string_view name, FactNo own)
{
    auto query =
        database.prepare("SELECT name FROM harp JOIN current_content USING (fact_no) WHERE name_key = :key "
                         "AND thing_no <> (SELECT thing_no FROM fact WHERE fact_no = :own)");
    query.bind(":key", key_of(name)).bind(":own", own.value);
    if (query.step())
        fail(ErrorCode::refused,
             fmt::format(
                 "the ledger has a harp named {} already; choose another name, or add to it what tells "
                 "them apart",
                 query.text()));
}

/// A layout may lose no place that a string, a plan or a reading stands on.
void expect_used_places(const Database& database, FactNo own)
{
    auto query = database.prepare(
        "SELECT place FROM (SELECT place, harp_no FROM mounted_string JOIN current_content USING (fact_no) "
        "UNION SELECT place, harp_no FROM planned_string JOIN current_content USING (fact_no)) "
        "WHERE harp_no = (SELECT thing_no FROM fact WHERE fact_no = :own) "
        "AND place NOT IN (SELECT place FROM harp_string WHERE fact_no = :own) LIMIT 1");
    query.bind(":own", own.value);
    if (query.step())
        fail(ErrorCode::refused,
             fmt::format("the harp has a string or a plan on {}; keep that place in its compass",
                         harp_name(place_from_code(query.integer()))));
}

void insert_details(const Action& action, FactNo fact, const HarpDetails& details)
{
    expect_short(details.name, "the name of the harp");
    expect_short(details.nickname, "the nickname");
    expect_short(details.maker, "the maker's name");
    expect_short(details.serial_number, "the serial number");
    if (details.left_on) refuse_future(*details.left_on, action.now(), "the day the harp left");
    expect_free_name(action.database(), details.name, fact);
    if (details.value && details.value->minor_units < 0)
        fail(ErrorCode::invalid_argument,
             "a harp cannot be worth less than nothing; give its value without a sign");
    Insert harp{action.database(), "harp"};
    harp.set("fact_no", fact.value)
        .set("name", trimmed(details.name))
        .set("name_key", key_of(details.name))
        .set("kind", kind_name(details.layout.kind))
        .set("nickname", details.nickname)
        .set("maker", details.maker)
        .set("serial_number", details.serial_number)
        .set("year_built", details.year_built);
    set_money(harp, "value", details.value);
    harp.set("photo_path", details.photo_path)
        .set("remarks", details.remarks)
        .set("left_on", date_column(details.left_on))
        .run();
    auto insert = action.database().prepare(
        "INSERT INTO harp_string (fact_no, place, open_alteration, has_natural_disc, has_sharp_disc) "
        "VALUES (:fact_no, :place, :open_alteration, :natural, :sharp)");
    for (const HarpString& string : details.layout.strings)
        insert.bind(":fact_no", fact.value)
            .bind(":place", string.place.diatonic_index())
            .bind(":open_alteration", string.open_alteration)
            .bind(":natural", string.has_natural_disc)
            .bind(":sharp", string.has_sharp_disc)
            .run();
    expect_used_places(action.database(), fact);
}

/// Reads the string places of one harp after the other.
class LayoutReader {
  public:
    explicit LayoutReader(const Database& database)
        : query_(database.prepare("SELECT place, open_alteration, has_natural_disc, has_sharp_disc "
                                  "FROM harp_string WHERE fact_no = :fact_no ORDER BY place"))
    {
    }

    std::vector<HarpString> strings_of(FactNo fact)
    {
        query_.reset();
        query_.bind(":fact_no", fact.value);
        std::vector<HarpString> strings;
        while (query_.step()) {
            HarpString string;
            string.place = place_from_code(query_.integer());
            string.open_alteration = query_.small_integer();
            string.has_natural_disc = query_.boolean();
            string.has_sharp_disc = query_.boolean();
            strings.push_back(string);
        }
        return strings;
    }

  private:
    Statement query_;
};

HarpRecord read_harp(LayoutReader& layouts, Statement& row)
{
    HarpRecord harp;
    harp.id = row.uuid();
    const FactNo fact{row.integer()};
    auto& details = harp.details;
    details.name = row.text();
    details.layout.kind = kind_from_name(row.text()).value(); // the table's CHECK allows no other
    details.nickname = row.text();
    details.maker = row.text();
    details.serial_number = row.text();
    if (const auto year = row.optional_integer()) details.year_built = static_cast<int>(*year);
    details.value = read_money(row);
    details.photo_path = row.text();
    details.remarks = row.text();
    details.left_on = read_optional_date(row);
    details.layout.strings = layouts.strings_of(fact);
    return harp;
}

std::string handles_of(const std::vector<HarpRecord>& harps)
{
    std::vector<std::string> handles;
    for (const HarpRecord& harp : harps) handles.push_back(handle_of(harp.id));
    return fmt::format("{}", fmt::join(handles, " or "));
}

std::string known_names(const Database& database)
{
    std::vector<std::string> names;
    auto query = database.prepare(
        "SELECT name FROM harp JOIN current_content USING (fact_no) ORDER BY name_key LIMIT 21");
    while (query.step()) names.push_back(query.text());
    if (names.empty()) return "the ledger has no harp yet; `harpkeep harp add NAME` adds one";
    if (names.size() == 21) names.back() = "...";
    return fmt::format("the ledger has {}", fmt::join(names, ", "));
}

} // namespace

Result<Uuid> add_harp(Ledger& ledger, const Author& author, const HarpDetails& details)
{
    return added(ledger, author, "harp", "added the harp " + trimmed(details.name),
                 [&](const Action& action, FactNo fact) { insert_details(action, fact, details); });
}

Result<void> change_harp(Ledger& ledger, const Author& author, const Uuid& harp_id,
                         const HarpDetails& details, const std::string& reason)
{
    return changed(ledger, author, "harp", harp_id, "corrected the harp " + trimmed(details.name), reason,
                   [&](const Action& action, FactNo fact) { insert_details(action, fact, details); });
}

Result<std::vector<HarpRecord>> harps(const Ledger& ledger)
{
    return snapshot(ledger, "reading the harps", [&] {
        auto query = ledger.database().prepare(std::string{select_harps} + "ORDER BY name_key, id");
        LayoutReader layouts{ledger.database()};
        std::vector<HarpRecord> all;
        while (query.step()) all.push_back(read_harp(layouts, query));
        return all;
    });
}

Result<std::vector<Record<std::string>>> harp_names(const Ledger& ledger)
{
    return snapshot(ledger, "reading the names of the harps", [&] {
        auto query = ledger.database().prepare(
            "SELECT id, name FROM harp JOIN current_content USING (fact_no) ORDER BY name_key, id");
        std::vector<Record<std::string>> names;
        while (query.step()) {
            const Uuid id = query.uuid();
            names.push_back({id, query.text()});
        }
        return names;
    });
}

Result<std::vector<HarpLine>> harp_lines(const Ledger& ledger)
{
    return snapshot(ledger, "reading the list of harps", [&] {
        auto query = ledger.database().prepare("SELECT id, name, kind, left_on IS NOT NULL FROM harp "
                                               "JOIN current_content USING (fact_no) ORDER BY name_key, id");
        std::vector<HarpLine> lines;
        while (query.step()) {
            HarpLine line{.id = query.uuid(), .name = query.text()};
            line.kind = kind_from_name(query.text()).value(); // the table's CHECK allows no other
            line.left = query.boolean();
            lines.push_back(std::move(line));
        }
        return lines;
    });
}

Result<HarpRecord> harp_named(const Ledger& ledger, std::string_view name)
{
    return snapshot(ledger, fmt::format("looking for the harp {}", name), [&] {
        const Database& database = ledger.database();
        auto query = database.prepare(std::string{select_harps} + "WHERE name_key = :key ORDER BY id");
        query.bind(":key", key_of(name));
        LayoutReader layouts{database};
        std::vector<HarpRecord> found;
        while (query.step()) found.push_back(read_harp(layouts, query));
        if (found.size() > 1)
            fail(ErrorCode::refused,
                 fmt::format("{} harps of that name came together when ledgers were merged; name it by its "
                             "handle, {}, "
                             "or give one another name with `harpkeep harp change {} --name ...`",
                             found.size(), handles_of(found), handle_of(found.back().id)));
        if (found.size() == 1) return found.front();
        if (looks_like_handle(name)) {
            auto by_handle =
                database.prepare(std::string{select_harps} + "WHERE substr(hex(id), 25) = upper(:handle)");
            by_handle.bind(":handle", name.substr(name.size() - 8));
            if (by_handle.step()) return read_harp(layouts, by_handle);
        }
        fail(ErrorCode::not_found, "there is none of that name; " + known_names(database));
    });
}

Result<HarpRecord> harp_with_id(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "looking for a harp by its key", [&] {
        auto query = ledger.database().prepare(std::string{select_harps} + "WHERE id = :id");
        query.bind(":id", harp_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such harp");
        LayoutReader layouts{ledger.database()};
        return read_harp(layouts, query);
    });
}

} // namespace harpkeep::db
