// SPDX-License-Identifier: MIT
#include "db/records/timeline.hpp"

#include "db/records/checks.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/rooms.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

using Entries = std::vector<TimelineEntry>;

std::string with_remarks(std::string words, const std::string& remarks)
{
    return remarks.empty() ? words : fmt::format("{}: {}", words, remarks);
}

void add_strings(const Ledger& ledger, const Uuid& harp_id, std::optional<StringPlace> place,
                 Entries& entries)
{
    for (const StringLife& life : value_or_fail(string_lives(ledger, harp_id, place))) {
        const MountedString& string = life.string;
        const std::string name = harp_name(string.place);
        std::string words = fmt::format("{}: {} string put on", name, string.make.material);
        if (string.watched_from)
            words = fmt::format("{}: {} string was on already", name, string.make.material);
        entries.push_back({string.put_on ? *string.put_on : *string.watched_from, "string", life.id,
                           string.place, with_remarks(words, string.remarks)});
        if (!life.removal) continue;
        const StringRemoval& removal = life.removal->details;
        words = fmt::format("{}: string came off ({})", name, removal_reason_name(removal.reason));
        if (removal.broke_at)
            words = fmt::format("{}: string broke at the {}", name, break_point_name(*removal.broke_at));
        if (removal.broke_at == BreakPoint::middle)
            words = fmt::format("{}: string broke in the middle", name);
        entries.push_back({removal.removed_on, "string_removal", life.removal->id, string.place,
                           with_remarks(words, removal.remarks)});
    }
}

void add_visits(const Ledger& ledger, const Uuid& harp_id, std::optional<StringPlace> place, Entries& entries)
{
    for (const VisitRecord& record : value_or_fail(visits_of(ledger, harp_id))) {
        std::vector<std::string> works;
        for (const VisitWork& work : record.visit.work) {
            const bool concerns =
                !place || work.place == place || (work.pedal && *work.pedal == place->letter);
            if (!concerns) continue;
            const std::string where =
                work.place ? harp_name(*work.place)
                           : (work.pedal ? fmt::format("pedal {}", letter_name(*work.pedal)) : "");
            works.push_back(where.empty() ? work.work : fmt::format("{} {}", where, work.work));
        }
        if (place && works.empty()) continue;
        std::string words = fmt::format(
            "visit by {}", record.visit.technician.empty() ? "a technician" : record.visit.technician);
        if (!works.empty()) words = fmt::format("{} ({})", words, fmt::join(works, "; "));
        entries.push_back(
            {record.visit.visited_on, "visit", record.id, place, with_remarks(words, record.visit.remarks)});
    }
}

void add_checks(const Ledger& ledger, const Uuid& harp_id, Entries& entries)
{
    for (const CheckSummary& check : value_or_fail(checks_of(ledger, harp_id)))
        entries.push_back(
            {local_date(check.header.taken), "check", check.id, std::nullopt,
             with_remarks(fmt::format("check: {} readings, {} steps", check.reading_count, check.step_count),
                          check.header.remarks)});
}

void add_place_checks(const Ledger& ledger, const Uuid& harp_id, StringPlace place, Entries& entries)
{
    for (const StoredCheck& check : value_or_fail(step_history(ledger, harp_id))) {
        std::vector<std::string> steps;
        for (const StepError& step : check.result.steps)
            if (step.place == place)
                steps.push_back(fmt::format("{} step {:+.1f} cents", step_name(step.step), step.error_cents));
        if (steps.empty()) continue;
        entries.push_back({local_date(check.header.taken), "check", check.id, place,
                           fmt::format("check: {}", fmt::join(steps, ", "))});
    }
}

void add_loans(const Ledger& ledger, const Uuid& harp_id, Entries& entries)
{
    for (const LoanRecord& record : value_or_fail(loans_of(ledger, harp_id))) {
        entries.push_back({record.loan.from, "loan", record.id, std::nullopt,
                           with_remarks("lent to " + record.loan.borrower, record.loan.condition_out)});
        if (record.back)
            entries.push_back(
                {record.back->details.returned_on, "loan_return", record.back->id, std::nullopt,
                 with_remarks("back from " + record.loan.borrower, record.back->details.condition_back)});
    }
}

void add_rooms(const Ledger& ledger, const Uuid& harp_id, Entries& entries)
{
    const auto all = value_or_fail(rooms(ledger));
    for (const PlacementRecord& record : value_or_fail(placements_of(ledger, harp_id))) {
        std::string words = "moved out of its room";
        for (const RoomRecord& room : all)
            if (record.details.room_id == room.id) words = "moved to " + room.details.name;
        entries.push_back({record.details.since, "placement", record.id, std::nullopt, words});
    }
}

void add_notes(const Ledger& ledger, const Uuid& harp_id, std::optional<StringPlace> place, Entries& entries)
{
    for (const NoteRecord& record : value_or_fail(notes(ledger, harp_id, place))) {
        std::string words = "note: " + record.details.words;
        if (record.details.place) words = fmt::format("{}: {}", harp_name(*record.details.place), words);
        for (const NoteAttachment& file : record.details.attachments)
            words = fmt::format("{} [{}]", words, file.file_name);
        entries.push_back({record.details.noted_on, "note", record.id, record.details.place, words});
    }
}

} // namespace

Result<std::vector<TimelineEntry>> timeline(const Ledger& ledger, const Uuid& harp_id,
                                            std::optional<StringPlace> place)
{
    return guarded("reading what happened to a harp", [&] {
        Entries entries;
        add_strings(ledger, harp_id, place, entries);
        add_visits(ledger, harp_id, place, entries);
        add_notes(ledger, harp_id, place, entries);
        if (place)
            add_place_checks(ledger, harp_id, *place, entries);
        else {
            add_checks(ledger, harp_id, entries);
            add_loans(ledger, harp_id, entries);
            add_rooms(ledger, harp_id, entries);
        }
        std::stable_sort(entries.begin(), entries.end(),
                         [](const TimelineEntry& a, const TimelineEntry& b) { return a.on < b.on; });
        return entries;
    });
}

} // namespace harpkeep::db
