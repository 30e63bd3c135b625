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

std::string select_strings()
{
    return fmt::format(
        "SELECT id, thing_no, {}, place, {}, batch, cost_minor, cost_currency, put_on, watched_from, "
        "remarks FROM mounted_string m JOIN current_content USING (fact_no) ",
        id_of("m.harp_no"), make_columns);
}

/// The end of a string's life; two computers may have noted one each: then the first noted stands, and the
/// ledger lists the conflict.
std::optional<Record<StringRemoval>> removal_of(const Database& database, ThingNo string,
                                                const Uuid& string_id)
{
    auto query = database.prepare("SELECT id, removed_on, reason, broke_at, remarks "
                                  "FROM string_removal JOIN current_content USING (fact_no) "
                                  "WHERE string_no = :string_no ORDER BY id LIMIT 1");
    query.bind(":string_no", string.value);
    if (!query.step()) return std::nullopt;
    Record<StringRemoval> removal;
    removal.id = query.uuid();
    removal.details.string_id = string_id;
    removal.details.removed_on = read_date(query);
    removal.details.reason = removal_reason_from_name(query.text()).value(); // by the table's CHECK
    if (const auto point = query.optional_text()) removal.details.broke_at = break_point_from_name(*point);
    removal.details.remarks = query.text();
    return removal;
}

struct StringRow {
    StringLife life;
    ThingNo thing;
};

StringRow read_string(const Database& database, Statement& row)
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
    read.life.removal = removal_of(database, read.thing, read.life.id);
    return read;
}

std::vector<StringRow> read_all(const Database& database, Statement& query)
{
    std::vector<StringRow> rows;
    while (query.step()) rows.push_back(read_string(database, query));
    return rows;
}

std::vector<StringRow> rows_at(const Database& database, ThingNo harp, StringPlace place)
{
    auto query = database.prepare(select_strings() + "WHERE harp_no = :harp_no AND place = :place "
                                                     "ORDER BY coalesce(put_on, watched_from), id");
    query.bind(":harp_no", harp.value).bind(":place", place.diatonic_index());
    return read_all(database, query);
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
    return guarded(what, [&] {
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
    return guarded(what, [&] {
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
    return changed(
        ledger, author, "string", string_id, "corrected a string on " + harp_name(string.place), reason,
        [&](const Action& action, FactNo fact) {
            const Database& database = action.database();
            const ThingNo harp = current_thing(database, string.harp_id, "harp");
            expect_place(database, harp, string.place);
            expect_dates(string, action.now());
            const auto end = removal_of(database, current_thing(database, string_id, "string"), string_id);
            const auto ended = end ? std::optional{end->details.removed_on} : std::nullopt;
            if (ended)
                refuse_reversed(beginning_of(string), "the day it was put on", *ended, "the day it came off");
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
                                      "WHERE harp_no = :harp_no AND place BETWEEN :lowest AND :highest "
                                      "ORDER BY place, coalesce(put_on, watched_from), id");
        query.bind(":harp_no", harp.value)
            .bind(":lowest", place ? place->diatonic_index() : 0)
            .bind(":highest", place ? place->diatonic_index() : 62);
        std::vector<StringLife> lives;
        while (query.step()) lives.push_back(read_string(database, query).life);
        return lives;
    });
}

Result<std::vector<StringLife>> all_string_lives(const Ledger& ledger)
{
    return snapshot(ledger, "reading the strings of all harps", [&] {
        auto query = ledger.database().prepare(select_strings() + "ORDER BY id");
        std::vector<StringLife> lives;
        while (query.step()) lives.push_back(read_string(ledger.database(), query).life);
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
        auto query = ledger.database().prepare(select_strings() + "WHERE id = :id");
        query.bind(":id", string_id);
        if (!query.step()) fail(ErrorCode::not_found, "the ledger has no such string");
        return read_string(ledger.database(), query).life;
    });
}

} // namespace harpkeep::db
