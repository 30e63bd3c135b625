// SPDX-License-Identifier: MIT
#include "db/records/rooms.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct RoomWords {
    std::string name;
    std::string new_name;
    std::optional<std::string> remarks;
    std::string why;
};

void report(const Common& common, const RoomRecord& room, const std::string& what)
{
    if (common.json)
        print_json(json_of(room));
    else
        print_line(fmt::format("{} the room {}.", what, room.details.name));
}

Result<void> add(const Common& common, const RoomWords& words)
{
    auto ledger = open_ledger(common, db::Access::create);
    if (!ledger) return failure(ledger.error());
    const Room room{words.name, words.remarks.value_or("")};
    const auto id = db::add_room(*ledger, ui::author(), room);
    if (!id) return failure(id.error());
    report(common, {*id, room}, "Added");
    return {};
}

Result<void> change(const Common& common, const RoomWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    auto room = db::room_named(*ledger, words.name);
    if (!room) return failure(room.error());
    if (!words.new_name.empty()) room->details.name = words.new_name;
    if (words.remarks) room->details.remarks = *words.remarks;
    const auto changed = db::change_room(*ledger, ui::author(), room->id, room->details, words.why);
    if (!changed) return failure(changed.error());
    report(common, *room, "Corrected");
    return {};
}

Result<void> list(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto rooms = db::rooms(*ledger);
    if (!rooms) return failure(rooms.error());
    const auto placements = db::current_placements(*ledger);
    if (!placements) return failure(placements.error());
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    if (common.json) {
        Json all = json_list(*rooms);
        for (std::size_t i = 0; i < rooms->size(); ++i) {
            all[i]["harps"] = Json::array();
            for (const PlacementRecord& placement : *placements)
                if (placement.details.room_id == (*rooms)[i].id)
                    all[i]["harps"].push_back(names->of(placement.details.harp_id));
        }
        print_json(all);
        return {};
    }
    if (rooms->empty()) print_line("No rooms yet; `harpkeep room add NAME` adds one.");
    if (rooms->empty()) return {};
    Table table{{{"Room"}, {"Harps"}, {"Remarks"}}};
    for (const RoomRecord& room : *rooms) {
        std::string harps;
        for (const PlacementRecord& placement : *placements)
            if (placement.details.room_id == room.id)
                harps += (harps.empty() ? "" : ", ") + names->of(placement.details.harp_id);
        table.add_row({room.details.name, harps, room.details.remarks});
    }
    table.print();
    return {};
}

struct MoveWords {
    std::string harp;
    std::string to;
    std::string date;
};

Result<void> move(const Common& common, const MoveWords& words)
{
    auto opened = open_harp(common, db::Access::write, words.harp);
    if (!opened) return failure(opened.error());
    const auto since = date_or_today(words.date);
    if (!since) return failure(since.error());
    Placement placement{opened->harp.id, std::nullopt, *since};
    if (words.to != "nowhere") {
        const auto room = db::room_named(opened->ledger, words.to);
        if (!room) return failure(room.error());
        placement.room_id = room->id;
    }
    const auto id = db::place_harp(opened->ledger, ui::author(), placement);
    if (!id) return failure(id.error());
    const std::string& harp = opened->harp.details.name;
    if (common.json)
        print_json({{"id", to_string(*id)},
                    {"harp", harp},
                    {"room", placement.room_id ? Json(words.to) : Json(nullptr)},
                    {"since", iso_date(*since)}});
    else
        print_line(placement.room_id
                       ? fmt::format("{} stands in {} since {}.", harp, words.to, iso_date(*since))
                       : fmt::format("{} stands in no room since {}.", harp, iso_date(*since)));
    return {};
}

} // namespace

void add_command_room(CLI::App& app, Common& common, Work& work)
{
    auto& room = add_noun(app, "room", "the rooms in which harps stand");

    const auto adding = add_verb<RoomWords>(room, common, work, "add", "put a room into the ledger", add);
    adding.app->add_option("NAME", adding.words->name, "what the room is called")->required();
    adding.app->add_option("--remarks", adding.words->remarks, "anything else");

    add_verb<NoWords>(room, common, work, "list", "all rooms and the harps in them", list);

    const auto changing =
        add_verb<RoomWords>(room, common, work, "change", "correct what is noted of a room", change);
    changing.app->add_option("NAME", changing.words->name, "the room")->required();
    changing.app->add_option("--name", changing.words->new_name, "its new name");
    changing.app->add_option("--remarks", changing.words->remarks, "anything else");
    add_reason_option(*changing.app, changing.words->why);

    const auto moving = add_verb<MoveWords>(room, common, work, "move", "move a harp to a room", move);
    add_harp_option(*moving.app, moving.words->harp);
    moving.app->add_option("--to", moving.words->to, "the room, or nowhere")->required();
    moving.app->add_option("--date", moving.words->date, "since when (default: today)");
}

} // namespace harpkeep::cli
