// SPDX-License-Identifier: MIT
#include "upkeep/due_work.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep {

namespace {

/// Gathers the items of one harp that are due.
struct Gatherer {
    const HarpUpkeep& upkeep;
    const UpkeepSettings& settings;
    Date today;
    Date until;
    std::vector<DueItem>& items;

    void add(DueKind kind, Date due_on, std::string what, std::string why,
             std::vector<StringPlace> places = {})
    {
        if (first_day(due_on) > until) return;
        items.push_back({.kind = kind,
                         .harp_id = upkeep.harp.id,
                         .harp = upkeep.harp.details.name,
                         .due_on = first_day(due_on),
                         .what = std::move(what),
                         .why = std::move(why),
                         .places = std::move(places)});
    }
};

void add_regulation(Gatherer& gatherer)
{
    const auto& upkeep = gatherer.upkeep;
    const auto& settings = gatherer.settings;
    if (upkeep.last_visit) {
        gatherer.add(DueKind::regulation, plus_months(*upkeep.last_visit, settings.regulation_months),
                     "call the technician for a regulation",
                     fmt::format("the last visit was {}; every {} months is wanted",
                                 iso_date(*upkeep.last_visit), settings.regulation_months));
        return;
    }
    const auto built = upkeep.harp.details.year_built;
    if (built)
        gatherer.add(DueKind::regulation, plus_months(last_day({*built}), settings.first_regulation_months),
                     "call the technician for a regulation",
                     fmt::format("built {}, and no visit is noted since", *built));
    else
        gatherer.add(DueKind::regulation, gatherer.today, "note the last visit, or call the technician",
                     "no visit is noted");
}

void add_check(Gatherer& gatherer)
{
    const auto& last = gatherer.upkeep.last_check;
    if (last)
        gatherer.add(DueKind::check, plus_months(*last, gatherer.settings.check_months), "make a check",
                     fmt::format("the last check was {}; every {} months is wanted", iso_date(*last),
                                 gatherer.settings.check_months));
    else
        gatherer.add(DueKind::check, gatherer.today, "make a first check", "no check is stored yet");
}

std::string place_names(const std::vector<StringPlace>& places)
{
    std::vector<std::string> names;
    for (const StringPlace place : places) names.push_back(harp_name(place));
    return fmt::format("{}", fmt::join(names, ", "));
}

constexpr int lowest_treble_octave = 2; // octaves 0 to 2 are changed on schedule; the middle when it needs it

void add_old_strings(Gatherer& gatherer, bool wires)
{
    const int months = wires ? gatherer.settings.wire_months : gatherer.settings.treble_string_months;
    std::vector<StringPlace> places;
    std::optional<Date> earliest;
    for (const StringLife& life : gatherer.upkeep.strings_on) {
        const bool wound = !life.string.make.wrap_material.empty();
        const bool treble = life.string.place.harp_octave() <= lowest_treble_octave;
        if (wires ? !wound : (wound || !treble)) continue;
        const Date begins = life.string.put_on ? *life.string.put_on : *life.string.watched_from;
        const Date due_on = plus_months(begins, months);
        if (due_on > gatherer.until) continue;
        places.push_back(life.string.place);
        if (!earliest || due_on < *earliest) earliest = due_on;
    }
    if (!earliest) return;
    const std::string what = fmt::format("change {} {}: {}", places.size(),
                                         wires ? (places.size() == 1 ? "wire" : "wires")
                                               : (places.size() == 1 ? "string" : "strings"),
                                         place_names(places));
    const std::string why =
        wires ? fmt::format("wires go dead; these are on for {} months or more", months)
              : fmt::format("in octaves 0 to 2 strings are changed before they fail; these are on "
                            "for {} months or more",
                            months);
    gatherer.add(wires ? DueKind::wires : DueKind::treble_strings, *earliest, what, why, places);
}

void add_bare_places(Gatherer& gatherer)
{
    const auto& bare = gatherer.upkeep.bare;
    if (bare.empty()) return;
    gatherer.add(DueKind::bare_place, gatherer.today,
                 fmt::format("put {} on: {}", bare.size() == 1 ? "a string" : "strings", place_names(bare)),
                 "a string came off and no other is noted", bare);
}

void add_loans(Gatherer& gatherer)
{
    for (const LoanRecord& loan : gatherer.upkeep.open_loans)
        if (loan.loan.until)
            gatherer.add(
                DueKind::loan, last_day(*loan.loan.until), "is due back from " + loan.loan.borrower,
                fmt::format("lent {} until {}", iso_date(loan.loan.from), iso_date(*loan.loan.until)));
}

struct ReminderDue {
    Date due_on;
    std::string why;
};

/// When a reminder is due, and why; nothing when it is over or nothing is known yet.
std::optional<ReminderDue> due_of(const ReminderRecord& record, const HarpUpkeep* upkeep, Date today)
{
    if (const auto* rule = std::get_if<DueOnDate>(&record.reminder.rule)) {
        if (record.last_done) return std::nullopt;
        return ReminderDue{rule->date, "set for " + iso_date(rule->date)};
    }
    if (const auto* rule = std::get_if<DueByDrift>(&record.reminder.rule)) {
        if (upkeep == nullptr || !upkeep->drift_since_visit || *upkeep->drift_since_visit < rule->drift)
            return std::nullopt;
        return ReminderDue{today,
                           fmt::format("a step moved by {:.1f} cents since the last visit; {:.1f} were set",
                                       upkeep->drift_since_visit->value(), rule->drift.value())};
    }
    const auto& rule = std::get<DueAfterMonths>(record.reminder.rule);
    std::optional<Date> last = record.last_done;
    const auto later = [&](const std::optional<Date>& date) {
        if (date && (!last || *last < *date)) last = date;
    };
    if (upkeep != nullptr && rule.counted_from == CountedFrom::visit) later(upkeep->last_visit);
    if (upkeep != nullptr && rule.counted_from == CountedFrom::check) later(upkeep->last_check);
    const Date from = last ? *last : rule.start;
    return ReminderDue{plus_months(from, rule.months),
                       fmt::format("{} months after {}", rule.months, iso_date(from))};
}

void add_reminders(const std::vector<HarpUpkeep>& harps, const std::vector<ReminderRecord>& reminders,
                   Date today, Date until, std::vector<DueItem>& items)
{
    for (const ReminderRecord& record : reminders) {
        const auto found = std::find_if(harps.begin(), harps.end(), [&](const HarpUpkeep& upkeep) {
            return record.reminder.harp_id == upkeep.harp.id;
        });
        if (record.reminder.harp_id && found == harps.end())
            continue; // of a harp that is gone or not asked for
        const HarpUpkeep* upkeep = record.reminder.harp_id ? &*found : nullptr;
        const auto due = due_of(record, upkeep, today);
        if (!due || first_day(due->due_on) > until) continue;
        items.push_back({.kind = DueKind::reminder,
                         .harp_id = record.reminder.harp_id,
                         .harp = upkeep != nullptr ? upkeep->harp.details.name : "",
                         .due_on = first_day(due->due_on),
                         .what = record.reminder.words,
                         .why = due->why,
                         .places = {},
                         .reminder_id = record.id});
    }
}

} // namespace

std::string_view due_kind_name(DueKind kind)
{
    constexpr std::array<std::string_view, 7> names{"regulation", "check", "treble strings", "wires",
                                                    "bare place", "loan",  "reminder"};
    return names[static_cast<std::size_t>(kind)];
}

std::vector<DueItem> due_work(const std::vector<HarpUpkeep>& harps,
                              const std::vector<ReminderRecord>& reminders, const UpkeepSettings& settings,
                              Date today, Date until)
{
    std::vector<DueItem> items;
    for (const HarpUpkeep& upkeep : harps) {
        Gatherer gatherer{upkeep, settings, today, until, items};
        add_bare_places(gatherer);
        add_regulation(gatherer);
        add_check(gatherer);
        add_old_strings(gatherer, false);
        add_old_strings(gatherer, true);
        add_loans(gatherer);
    }
    add_reminders(harps, reminders, today, until, items);
    std::stable_sort(items.begin(), items.end(),
                     [](const DueItem& a, const DueItem& b) { return a.due_on < b.due_on; });
    return items;
}

} // namespace harpkeep
