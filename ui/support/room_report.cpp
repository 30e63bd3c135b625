// SPDX-License-Identifier: MIT
#include "ui/support/room_report.hpp"

#include "db/records/climate.hpp"
#include "db/records/harps.hpp"
#include "db/records/loans.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/spares.hpp"
#include "db/records/upkeep.hpp"
#include "report/room_sheet.hpp"
#include "ui/support/harp_knowledge.hpp"

#include <algorithm>

namespace harpkeep::ui {

namespace {

constexpr int school_begins = 8; // August
/// Days are those on the wall; an hour of any zone lies within half a day of its UTC day.
constexpr std::int64_t half_day_ms = 43'200'000;

std::int64_t utc_ms_of_day(Date day)
{
    return moment_at(day, 0, 0, 0).utc_ms;
}

/// When the harp stood in the room (or, without one, was there at all), within the days asked for.
Result<std::vector<report::Stay>> stays_of(const db::Ledger& ledger, const HarpRecord& harp,
                                           const std::optional<Uuid>& room_id, const ReportRequest& request)
{
    const Date end =
        harp.details.left_on ? std::min(first_day(*harp.details.left_on), request.until) : request.until;
    if (!room_id) {
        if (end < request.from) return std::vector<report::Stay>{};
        return std::vector<report::Stay>{{request.from, end}};
    }
    const auto placements = db::placements_of(ledger, harp.id);
    if (!placements) return failure(placements.error());
    std::vector<report::Stay> stays;
    for (std::size_t i = 0; i < placements->size(); ++i) {
        if ((*placements)[i].details.room_id != *room_id) continue;
        const Date since = std::max(first_day((*placements)[i].details.since), request.from);
        const Date until =
            i + 1 < placements->size()
                ? std::min(date_from_days(days_since_epoch((*placements)[i + 1].details.since) - 1), end)
                : end;
        if (since <= until) stays.push_back({since, until});
    }
    return stays;
}

Result<report::RoomHarp> room_harp(const db::Ledger& ledger, const HarpRecord& harp,
                                   std::vector<report::Stay> stays, const ReportRequest& request)
{
    const auto knowledge = harp_knowledge(ledger, harp);
    if (!knowledge) return failure(knowledge.error());
    auto loans = db::loans_of(ledger, harp.id);
    if (!loans) return failure(loans.error());
    const auto upkeep = db::harp_upkeep(ledger, harp.id);
    if (!upkeep) return failure(upkeep.error());
    auto reminders = db::reminders(ledger);
    if (!reminders) return failure(reminders.error());
    std::erase_if(*reminders,
                  [&](const ReminderRecord& record) { return record.reminder.harp_id != harp.id; });
    return report::RoomHarp{
        .harp = harp,
        .stays = std::move(stays),
        .visits = knowledge->visits,
        .checks = knowledge->history,
        .strings = knowledge->strings,
        .loans = std::move(*loans),
        .evidence = harp_evidence(*knowledge, days_since_epoch(request.today)),
        .due = due_work(*upkeep, *reminders, {}, request.today, std::max(request.today, request.until))};
}

} // namespace

SchoolYear school_year(int year)
{
    return {{year, school_begins, 1}, last_day({year + 1, school_begins - 1, 0})};
}

SchoolYear school_year_of(Date day)
{
    return school_year(first_day(day).month >= school_begins ? day.year : day.year - 1);
}

Result<std::string> room_of(const db::Ledger& ledger, const Uuid& harp_id, Date day)
{
    const auto placements = db::placements_of(ledger, harp_id);
    if (!placements) return failure(placements.error());
    std::optional<Uuid> room_id;
    for (const PlacementRecord& record : *placements)
        if (first_day(record.details.since) <= day) room_id = record.details.room_id;
    if (!room_id) return std::string{};
    const auto rooms = db::rooms(ledger);
    if (!rooms) return failure(rooms.error());
    for (const RoomRecord& room : *rooms)
        if (room.id == *room_id) return room.details.name;
    return std::string{};
}

Result<std::vector<ClimateSample>> climate_between(const db::Ledger& ledger, const Uuid& harp_id, Date from,
                                                   Date until)
{
    return db::climate_of_harp(ledger, harp_id, utc_ms_of_day(first_day(from)) - half_day_ms,
                               utc_ms_of_day(last_day(until)) + 3 * half_day_ms);
}

Result<report::Document> room_report(const db::Ledger& ledger, const ReportRequest& request,
                                     const ReportProgress& progress)
{
    report::RoomSheetInput input{.from = request.from, .until = request.until, .today = request.today};
    std::optional<Uuid> room_id;
    if (!request.room.empty()) {
        const auto room = db::room_named(ledger, request.room);
        if (!room) return failure(room.error());
        room_id = room->id;
        input.room = room->details.name;
        input.remarks = room->details.remarks;
        auto climate = db::climate_of_room(ledger, room->id, utc_ms_of_day(request.from) - half_day_ms,
                                           utc_ms_of_day(request.until) + 3 * half_day_ms);
        if (!climate) return failure(climate.error());
        input.climate = std::move(*climate);
    }
    const auto harps = db::harps(ledger);
    if (!harps) return failure(harps.error());
    double looked_at = 0.0;
    for (const HarpRecord& harp : *harps) {
        if (progress && !progress(looked_at++ / static_cast<double>(harps->size())))
            return failure(ErrorCode::refused, "the sheet of the room was stopped before it was made");
        auto stays = stays_of(ledger, harp, room_id, request);
        if (!stays) return failure(stays.error());
        if (stays->empty()) continue;
        auto one = room_harp(ledger, harp, std::move(*stays), request);
        if (!one) return failure(one.error());
        input.harps.push_back(std::move(*one));
    }
    auto spares = db::spare_movements(ledger);
    if (!spares) return failure(spares.error());
    input.spares = std::move(*spares);
    return report::room_sheet(input);
}

} // namespace harpkeep::ui
