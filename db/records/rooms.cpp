// SPDX-License-Identifier: MIT
#include "db/records/rooms.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "records/name_key.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

constexpr const char* select_rooms =
    "SELECT id, name, remarks FROM room JOIN current_content USING (fact_no) ";

RoomRecord read_room(Statement& row)
{
    RoomRecord room;
    room.id = row.uuid();
    room.details.name = row.text();
    room.details.remarks = row.text();
    return room;
}

std::string key_of(std::string_view name)
{
    const auto key = name_key(name);
    if (!key)
        fail(ErrorCode::invalid_argument,
             fmt::format("\"{}\" cannot be the name of a room; give some letters, in UTF-8, on one line",
                         name));
    return *key;
}

void insert_room(const Action& action, FactNo fact, const Room& room)
{
    expect_short(room.name, "the name of the room");
    auto others =
        action.database().prepare("SELECT name FROM room JOIN current_content USING (fact_no) WHERE name_key "
                                  "= :key AND thing_no <> (SELECT thing_no FROM fact WHERE fact_no = :own)");
    others.bind(":key", key_of(room.name)).bind(":own", fact.value);
    if (others.step())
        fail(ErrorCode::refused,
             fmt::format("the ledger has a room named {} already; choose another name", others.text()));
    Insert{action.database(), "room"}
        .set("fact_no", fact.value)
        .set("name", trimmed(room.name))
        .set("name_key", key_of(room.name))
        .set("remarks", room.remarks)
        .run();
}

std::string select_placements()
{
    return fmt::format("SELECT id, {}, {}, since_on FROM placement p JOIN current_content USING (fact_no) ",
                       id_of("p.harp_no"), id_of("p.room_no"));
}

std::vector<PlacementRecord> read_placements(Statement& query)
{
    std::vector<PlacementRecord> placements;
    while (query.step()) {
        PlacementRecord placement;
        placement.id = query.uuid();
        placement.details.harp_id = query.uuid();
        placement.details.room_id = query.optional_uuid();
        placement.details.since = read_date(query);
        placements.push_back(placement);
    }
    return placements;
}

std::string known_rooms(const Database& database)
{
    auto query = database.prepare(
        "SELECT name FROM room JOIN current_content USING (fact_no) ORDER BY name_key LIMIT 20");
    std::vector<std::string> names;
    while (query.step()) names.push_back(query.text());
    if (names.empty()) return "the ledger has no room yet; `harpkeep room add NAME` adds one";
    return fmt::format("the ledger has {}", fmt::join(names, ", "));
}

} // namespace

Result<Uuid> add_room(Ledger& ledger, const Author& author, const Room& room)
{
    return added(ledger, author, "room", "added the room " + trimmed(room.name),
                 [&](const Action& action, FactNo fact) { insert_room(action, fact, room); });
}

Result<void> change_room(Ledger& ledger, const Author& author, const Uuid& room_id, const Room& room,
                         const std::string& reason)
{
    return changed(ledger, author, "room", room_id, "corrected the room " + trimmed(room.name), reason,
                   [&](const Action& action, FactNo fact) { insert_room(action, fact, room); });
}

Result<std::vector<RoomRecord>> rooms(const Ledger& ledger)
{
    return snapshot(ledger, "reading the rooms", [&] {
        auto query = ledger.database().prepare(std::string{select_rooms} + "ORDER BY name_key, id");
        std::vector<RoomRecord> all;
        while (query.step()) all.push_back(read_room(query));
        return all;
    });
}

Result<RoomRecord> room_named(const Ledger& ledger, std::string_view name)
{
    return snapshot(ledger, fmt::format("looking for the room {}", name), [&] {
        auto query = ledger.database().prepare(std::string{select_rooms} +
                                               "WHERE name_key = :key ORDER BY id LIMIT 1");
        query.bind(":key", key_of(name));
        if (!query.step())
            fail(ErrorCode::not_found, "there is none of that name; " + known_rooms(ledger.database()));
        return read_room(query);
    });
}

Result<Uuid> place_harp(Ledger& ledger, const Author& author, const Placement& placement)
{
    return added(ledger, author, "placement",
                 placement.room_id ? "moved a harp to a room" : "moved a harp out of its room",
                 [&](const Action& action, FactNo fact) {
                     const Database& database = action.database();
                     refuse_future(placement.since, action.now(), "the day it was moved");
                     Insert{database, "placement"}
                         .set("fact_no", fact.value)
                         .set("harp_no", current_thing(database, placement.harp_id, "harp").value)
                         .set("room_no", optional_thing(database, placement.room_id, "room"))
                         .set("since_on", iso_date(placement.since))
                         .run();
                 });
}

Result<std::vector<PlacementRecord>> placements_of(const Ledger& ledger, const Uuid& harp_id)
{
    return snapshot(ledger, "reading where a harp stood", [&] {
        auto query =
            ledger.database().prepare(select_placements() + "WHERE harp_no = :harp_no ORDER BY since_on, id");
        query.bind(":harp_no", current_thing(ledger.database(), harp_id, "harp").value);
        return read_placements(query);
    });
}

Result<std::vector<PlacementRecord>> current_placements(const Ledger& ledger)
{
    return snapshot(ledger, "reading where the harps stand", [&] {
        auto query = ledger.database().prepare(select_placements() + "ORDER BY harp_no, since_on, id");
        std::vector<PlacementRecord> latest;
        for (PlacementRecord& placement : read_placements(query)) {
            if (!latest.empty() && latest.back().details.harp_id == placement.details.harp_id)
                latest.back() = placement;
            else
                latest.push_back(placement);
        }
        return latest;
    });
}

} // namespace harpkeep::db
