// SPDX-License-Identifier: MIT
#include "db/records/reminders.hpp"

#include "db/ledger/things.hpp"
#include "db/records/columns.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <fmt/format.h>

namespace harpkeep::db {

namespace {

void expect_possible(const Reminder& reminder)
{
    if (reminder.words.empty()) fail(ErrorCode::invalid_argument, "say what to be reminded of");
    if (const auto* rule = std::get_if<DueOnDate>(&reminder.rule); rule && !is_valid(rule->date))
        fail(ErrorCode::invalid_argument, "the reminder has no such date");
    if (const auto* rule = std::get_if<DueAfterMonths>(&reminder.rule)) {
        if (rule->months < 1 || rule->months > 1200)
            fail(ErrorCode::invalid_argument, "a reminder comes after 1 to 1200 months");
        if (!reminder.harp_id && rule->counted_from != CountedFrom::done)
            fail(ErrorCode::invalid_argument, "visits and checks are those of a harp; give --harp");
    }
    if (const auto* rule = std::get_if<DueByDrift>(&reminder.rule)) {
        if (!reminder.harp_id) fail(ErrorCode::invalid_argument, "drift is that of a harp; give --harp");
        if (!(rule->drift.value() > 0.0 && rule->drift.value() <= 100.0))
            fail(ErrorCode::invalid_argument, "drift is given in cents, above 0 and up to 100");
    }
}

void insert_reminder(const Action& action, FactNo fact, const Reminder& reminder)
{
    expect_possible(reminder);
    const auto* on_date = std::get_if<DueOnDate>(&reminder.rule);
    const auto* after = std::get_if<DueAfterMonths>(&reminder.rule);
    const auto* by_drift = std::get_if<DueByDrift>(&reminder.rule);
    Insert{action.database(), "reminder"}
        .set("fact_no", fact.value)
        .set("harp_no", optional_thing(action.database(), reminder.harp_id, "harp"))
        .set("words", reminder.words)
        .set("due_on", on_date != nullptr ? std::optional{iso_date(on_date->date)} : std::nullopt)
        .set("every_months", after != nullptr ? std::optional{after->months} : std::nullopt)
        .set("counted_from",
             after != nullptr ? std::optional{counted_from_name(after->counted_from)} : std::nullopt)
        .set("from_on", after != nullptr ? std::optional{iso_date(after->start)} : std::nullopt)
        .set("drift_cents", by_drift != nullptr ? std::optional{by_drift->drift.value()} : std::nullopt)
        .run();
}

ReminderRule read_rule(Statement& row)
{
    const auto due_on = read_optional_date(row);
    const auto months = row.optional_integer();
    const auto counted_from = row.optional_text();
    const auto start = read_optional_date(row);
    const auto drift_cents = row.optional_real();
    // The table's CHECKs let exactly one kind of rule be filled.
    if (due_on) return DueOnDate{*due_on};
    if (drift_cents) return DueByDrift{Cents{*drift_cents}};
    return DueAfterMonths{static_cast<int>(months.value()),
                          counted_from_from_name(counted_from.value()).value(), start.value()};
}

} // namespace

Result<Uuid> add_reminder(Ledger& ledger, const Author& author, const Reminder& reminder)
{
    return added(ledger, author, "reminder", "set a reminder: " + reminder.words,
                 [&](const Action& action, FactNo fact) { insert_reminder(action, fact, reminder); });
}

Result<void> change_reminder(Ledger& ledger, const Author& author, const Uuid& reminder_id,
                             const Reminder& reminder, const std::string& reason)
{
    return changed(ledger, author, "reminder", reminder_id, "corrected a reminder: " + reminder.words, reason,
                   [&](const Action& action, FactNo fact) { insert_reminder(action, fact, reminder); });
}

Result<Uuid> reminder_done(Ledger& ledger, const Author& author, const Uuid& reminder_id, Date done_on,
                           const std::string& remarks)
{
    return added(ledger, author, "reminder_done", "did what a reminder asked for",
                 [&](const Action& action, FactNo fact) {
                     refuse_future(done_on, action.now(), "the day it was done");
                     Insert{action.database(), "reminder_done"}
                         .set("fact_no", fact.value)
                         .set("reminder_no", current_thing(action.database(), reminder_id, "reminder").value)
                         .set("done_on", iso_date(done_on))
                         .set("remarks", remarks)
                         .run();
                 });
}

Result<std::vector<ReminderRecord>> reminders(const Ledger& ledger)
{
    return snapshot(ledger, "reading the reminders", [&] {
        auto query = ledger.database().prepare(fmt::format(
            "SELECT id, {}, words, (SELECT max(d.done_on) FROM reminder_done d JOIN current_content c "
            "USING (fact_no) WHERE d.reminder_no = k.thing_no), "
            "due_on, every_months, counted_from, from_on, drift_cents "
            "FROM reminder r JOIN current_content k USING (fact_no) ORDER BY id",
            id_of("r.harp_no")));
        std::vector<ReminderRecord> all;
        while (query.step()) {
            ReminderRecord record;
            record.id = query.uuid();
            record.reminder.harp_id = query.optional_uuid();
            record.reminder.words = query.text();
            record.last_done = read_optional_date(query);
            record.reminder.rule = read_rule(query);
            all.push_back(std::move(record));
        }
        return all;
    });
}

} // namespace harpkeep::db
