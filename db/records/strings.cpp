// SPDX-License-Identifier: MIT
#include "db/records/strings.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/records/spare_rows.hpp"
#include "db/records/stored_codes.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

/// Of two computers each may have noted an end of a string's life: then the first noted stands, and the
/// ledger lists the conflict.
constexpr std::string_view removal_fact =
    "(SELECT o.fact_no FROM string_removal o JOIN current_content oc USING (fact_no) WHERE o.string_no = {} "
    "ORDER BY oc.id LIMIT 1)";
constexpr std::string_view removal_columns = "r.removed_on, r.reason, r.broke_at, r.remarks";

std::string select_strings()
{
    return fmt::format(
        "SELECT c.id, c.thing_no, {}, m.place, {}, batch, cost_minor, cost_currency, put_on, watched_from, "
        "m.remarks, (SELECT t.id FROM fact f JOIN thing t USING (thing_no) WHERE f.fact_no = r.fact_no), {} "
        "FROM mounted_string m JOIN current_content c USING (fact_no) LEFT JOIN string_removal r ON "
        "r.fact_no = {} ",
        id_of("m.harp_no"), make_columns, removal_columns,
        fmt::format(fmt::runtime(removal_fact), "c.thing_no"));
}

/// Reads the key of a removal and removal_columns; nothing when the string is on.
std::optional<Record<StringRemoval>> read_removal(Statement& row, const Uuid& string_id)
{
    const auto id = row.optional_uuid();
    if (!id) return std::nullopt;
    Record<StringRemoval> removal;
    removal.id = *id;
    removal.details.string_id = string_id;
    removal.details.removed_on = read_date(row);
    removal.details.reason = removal_reason_from_name(row.text()).value(); // by the table's CHECK
    if (const auto point = row.optional_text()) removal.details.broke_at = break_point_from_name(*point);
    removal.details.remarks = row.text();
    return removal;
}

struct StringRow {
    StringLife life;
    ThingNo thing;
};

StringRow read_string(Statement& row)
{
    StringRow read;
    read.life.id = row.uuid();
    read.thing = {row.integer()};
    MountedString& string = read.life.string;
    string.harp_id = row.uuid();
    string.place = place_from_code(row.integer());
    string.make = read_make(row);
    string.batch = row.text();
    string.cost = read_money(row);
    string.put_on = read_optional_date(row);
    string.watched_from = read_optional_date(row);
    string.remarks = row.text();
    read.life.removal = read_removal(row, read.life.id);
    return read;
}

/// When a string came off, if it did.
std::optional<Date> end_of(const Database& database, ThingNo string)
{
    auto query = database.prepare("SELECT removed_on FROM string_removal WHERE fact_no = " +
                                  fmt::format(fmt::runtime(removal_fact), ":string_no"));
    query.bind(":string_no", string.value);
    return query.step() ? std::optional{read_date(query)} : std::nullopt;
}

std::vector<StringRow> read_all(Statement& query)
{
    std::vector<StringRow> rows;
    while (query.step()) rows.push_back(read_string(query));
    return rows;
}

std::vector<StringRow> rows_at(const Database& database, ThingNo harp, StringPlace place)
{
    auto query = database.prepare(select_strings() + "WHERE m.harp_no = :harp_no AND m.place = :place "
                                                     "ORDER BY coalesce(put_on, watched_from), c.id");
    query.bind(":harp_no", harp.value).bind(":place", place.diatonic_index());
    return read_all(query);
}

std::optional<StringRow> on_now(const Database& database, ThingNo harp, StringPlace place)
{
    for (StringRow& row : rows_at(database, harp, place))
        if (!row.life.removal) return std::move(row);
    return std::nullopt;
}

/// When the string is known to have been on, at the earliest.
Date beginning_of(const MountedString& string)
{
    return string.put_on ? *string.put_on : *string.watched_from;
}

std::string description_of(const MountedString& string)
{
    return fmt::format("the {} string put on {}", string.make.material,
                       string.put_on ? iso_date(*string.put_on) : "before the ledger began");
}

/// Two strings cannot be on one place at one time. Dates that are only a month or a year may touch.
///
/// Given  ended  when `string` came off again, if it did
void refuse_overlap(const StringRow& other, const MountedString& string, std::optional<Date> ended,
                    const std::string& harp_words)
{
    const Date begins = beginning_of(string);
    const Date other_begins = beginning_of(other.life.string);
    const bool before_it = ended && first_day(*ended) <= last_day(other_begins);
    if (before_it) return;
    const std::string place = harp_name(string.place);
    if (!other.life.removal)
        fail(ErrorCode::refused,
             fmt::format(
                 "{0} carries {1}; take it off first with `harpkeep string off {0} --harp {2} --reason "
                 "...`, or say with --old why it goes",
                 place, description_of(other.life.string), harp_words));
    const Date other_ends = other.life.removal->details.removed_on;
    if (last_day(begins) >= first_day(other_ends)) return;
    if (last_day(begins) >= first_day(other_begins))
        fail(ErrorCode::refused,
             fmt::format("on {} {} carried {}, which came off {}; correct one of the dates", iso_date(begins),
                         place, description_of(other.life.string), iso_date(other_ends)));
    fail(ErrorCode::refused,
         fmt::format("{} carried {} later; say with --came-off when this one ended before it", place,
                     description_of(other.life.string)));
}

void insert_string(const Action& action, FactNo fact, ThingNo harp, const MountedString& string)
{
    Insert insert{action.database(), "mounted_string"};
    insert.set("fact_no", fact.value).set("harp_no", harp.value).set("place", string.place.diatonic_index());
    set_make(insert, string.make);
    insert.set("batch", string.batch);
    set_money(insert, "cost", string.cost);
    insert.set("put_on", date_column(string.put_on))
        .set("watched_from", date_column(string.watched_from))
        .set("remarks", string.remarks)
        .run();
}

Uuid insert_removal(Action& action, const StringRow& string, const StringRemoval& removal)
{
    refuse_future(removal.removed_on, action.now(), "the day it came off");
    refuse_reversed(beginning_of(string.life.string), "the day it was put on", removal.removed_on,
                    "the day it came off");
    if (removal.broke_at && removal.reason != RemovalReason::broke)
        fail(ErrorCode::invalid_argument, "where it broke can be told only of a string that broke");
    const NewThing thing = action.add("string_removal");
    Insert insert{action.database(), "string_removal"};
    insert.set("fact_no", thing.fact.value)
        .set("string_no", string.thing.value)
        .set("removed_on", iso_date(removal.removed_on))
        .set("reason", removal_reason_name(removal.reason));
    insert
        .set("broke_at", removal.broke_at ? std::optional{break_point_name(*removal.broke_at)} : std::nullopt)
        .set("remarks", removal.remarks)
        .run();
    return thing.id;
}

void expect_dates(const MountedString& string, Moment now)
{
    if (!string.put_on && !string.watched_from)
        fail(ErrorCode::invalid_argument, "a string needs the day it was put on; give --date");
    if (string.put_on) refuse_future(*string.put_on, now, "the day it was put on");
    if (string.watched_from) refuse_future(*string.watched_from, now, "the day it was first seen");
    if (string.put_on && string.watched_from)
        refuse_reversed(*string.put_on, "the day it was put on", *string.watched_from,
                        "the day it was first seen");
}

std::string name_of_harp(const Database& database, ThingNo harp)
{
    auto query = database.prepare(
        "SELECT name FROM harp JOIN current_content USING (fact_no) WHERE thing_no = :harp_no");
    query.bind(":harp_no", harp.value);
    return query.step() ? query.text() : "...";
}

Uuid insert_checked(Action& action, const MountedString& string, const PutOnOptions& options)
{
    const Database& database = action.database();
    const ThingNo harp = current_thing(database, string.harp_id, "harp");
    expect_place(database, harp, string.place);
    expect_dates(string, action.now());
    if (options.old_string) {
        const auto old = on_now(database, harp, string.place);
        if (!old)
            fail(ErrorCode::refused, fmt::format("{} carries no string that could come off; leave --old out",
                                                 harp_name(string.place)));
        insert_removal(action, *old,
                       {.removed_on = beginning_of(string),
                        .reason = options.old_string->reason,
                        .broke_at = options.old_string->broke_at});
    }
    const auto ended = options.ended ? std::optional{options.ended->removed_on} : std::nullopt;
    for (const StringRow& other : rows_at(database, harp, string.place))
        refuse_overlap(other, string, ended, name_of_harp(database, harp));
    const NewThing thing = action.add("string");
    insert_string(action, thing.fact, harp, string);
    if (options.ended) {
        const StringRow row{{thing.id, string, std::nullopt}, thing.thing};
        insert_removal(action, row, *options.ended);
    }
    if (options.from_spares) use_spare(action, harp, thing.thing, string);
    return thing.id;
}

} // namespace

Result<std::vector<Uuid>> put_on_all(Ledger& ledger, const Author& author,
                                     const std::vector<MountedString>& strings, const PutOnOptions& options)
{
    const std::string what =
        strings.size() == 1
            ? fmt::format("put a {} string on {}", strings[0].make.material, harp_name(strings[0].place))
            : fmt::format("put {} strings on", strings.size());
    return guarded_action(what, [&] {
        Action action{ledger, author, what};
        std::vector<Uuid> ids;
        for (const MountedString& string : strings) ids.push_back(insert_checked(action, string, options));
        action.commit();
        return ids;
    });
}

Result<Uuid> put_on(Ledger& ledger, const Author& author, const MountedString& string,
                    const PutOnOptions& options)
{
    return put_on_all(ledger, author, {string}, options).map([](const std::vector<Uuid>& ids) {
        return ids.front();
    });
}

Result<Uuid> take_off(Ledger& ledger, const Author& author, const Uuid& harp_id, StringPlace place,
                      StringRemoval removal)
{
    const std::string what =
        fmt::format("took the string off {} ({})", harp_name(place), removal_reason_name(removal.reason));
    return guarded_action(what, [&] {
        Action action{ledger, author, what};
        const ThingNo harp = current_thing(action.database(), harp_id, "harp");
        expect_place(action.database(), harp, place);
        const auto string = on_now(action.database(), harp, place);
        if (!string)
            fail(ErrorCode::refused,
                 fmt::format(
                     "the ledger knows of no string on {}; put it on first with `harpkeep string on`, with "
                     "--already-on when it was there before the ledger began",
                     harp_name(place)));
        const Uuid id = insert_removal(action, *string, removal);
        action.commit();
        return id;
    });
}

Result<void> change_string(Ledger& ledger, const Author& author, const Uuid& string_id,
                           const MountedString& string, const std::string& reason)
{
    return changed(ledger, author, "string", string_id, "corrected a string on " + harp_name(string.place),
                   reason, [&](const Action& action, FactNo fact) {
                       const Database& database = action.database();
                       const ThingNo harp = current_thing(database, string.harp_id, "harp");
                       expect_place(database, harp, string.place);
                       expect_dates(string, action.now());
                       const auto ended = end_of(database, current_thing(database, string_id, "string"));
                       if (ended)
                           refuse_reversed(beginning_of(string), "the day it was put on", *ended,
                                           "the day it came off");
                       for (const StringRow& other : rows_at(database, harp, string.place))
                           if (other.life.id != string_id)
                               refuse_overlap(other, string, ended, name_of_harp(database, harp));
                       insert_string(action, fact, harp, string);
                   });
}

Result<std::vector<StringLife>> string_lives(const Ledger& ledger, const Uuid& harp_id,
                                             std::optional<StringPlace> place)
{
    return snapshot(ledger, "reading the strings of a harp", [&] {
        const Database& database = ledger.database();
        const ThingNo harp = current_thing(database, harp_id, "harp");
        auto query = database.prepare(select_strings() +
                                      "WHERE m.harp_no = :harp_no AND m.place BETWEEN :lowest AND :highest "
                                      "ORDER BY m.place, coalesce(put_on, watched_from), c.id");
        query.bind(":harp_no", harp.value)
            .bind(":lowest", place ? place->diatonic_index() : 0)
            .bind(":highest", place ? place->diatonic_index() : 62);
        std::vector<StringLife> lives;
        while (query.step()) lives.push_back(read_string(query).life);
        return lives;
    });
}

Result<std::vector<StringLife>> all_string_lives(const Ledger& ledger)
{
    return snapshot(ledger, "reading the strings of all harps", [&] {
        auto query = ledger.database().prepare(select_strings() + "ORDER BY c.id");
        std::vector<StringLife> lives;
        while (query.step()) lives.push_back(read_string(query).life);
        return lives;
    });
}

Result<std::vector<StringLife>> strings_on(const Ledger& ledger, const Uuid& harp_id)
{
    auto lives = string_lives(ledger, harp_id);
    if (lives) std::erase_if(*lives, [](const StringLife& life) { return life.removal.has_value(); });
    return lives;
}

Result<StringLife> string_with_id(const Ledger& ledger, const Uuid& string_id)
{
    return snapshot(ledger, "looking for a string", [&] {
        auto query = ledger.database().prepare(select_strings() + "WHERE c.id = :id");
        query.bind(":id", string_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such string");
        return read_string(query).life;
    });
}

} // namespace harpkeep::db
