// SPDX-License-Identifier: MIT
#include "db/records/reminders.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct ReminderWords {
    std::string handle;
    std::string words;
    std::string harp;
    std::string on;
    std::optional<int> every_months;
    std::string after = "done";
    std::string from;
    std::optional<double> drift_cents;
    std::string why;
};

int rules_named(const ReminderWords& words)
{
    return (words.on.empty() ? 0 : 1) + (words.every_months ? 1 : 0) + (words.drift_cents ? 1 : 0);
}

Result<ReminderRule> rule_from(const ReminderWords& words)
{
    if (rules_named(words) != 1)
        return failure(ErrorCode::invalid_argument,
                       "say when: --on DATE, or --every MONTHS, or --drift CENTS; one of the three");
    if (words.drift_cents) return DueByDrift{Cents{*words.drift_cents}};
    if (words.every_months) {
        const auto start = date_or_today(words.from);
        if (!start) return failure(start.error());
        return DueAfterMonths{*words.every_months, counted_from_from_name(words.after).value(), *start};
    }
    const auto date = date_argument(words.on);
    if (!date) return failure(date.error());
    return DueOnDate{*date};
}

std::string rule_words(const ReminderRule& rule)
{
    if (const auto* on_date = std::get_if<DueOnDate>(&rule)) return "on " + iso_date(on_date->date);
    if (const auto* drift = std::get_if<DueByDrift>(&rule))
        return fmt::format("when a step moved by {} cents since the last visit", drift->drift.value());
    const auto& months = std::get<DueAfterMonths>(rule);
    if (months.counted_from == CountedFrom::done) return fmt::format("every {} months", months.months);
    return fmt::format("{} months after each {}", months.months, counted_from_name(months.counted_from));
}

Result<void> report(const Common& common, const db::Ledger& ledger, const ReminderRecord& reminder)
{
    const auto names = Names::in(ledger);
    if (!names) return failure(names.error());
    if (common.json)
        print_json(json_of(reminder, *names));
    else
        print_line(fmt::format("Reminder {}: {} {}.", db::handle_of(reminder.id), reminder.reminder.words,
                               rule_words(reminder.reminder.rule)));
    return {};
}

Result<void> add(const Common& common, const ReminderWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto rule = rule_from(words);
    if (!rule) return failure(rule.error());
    Reminder reminder{std::nullopt, words.words, *rule};
    const bool needs_harp = words.drift_cents || words.after != "done";
    if (needs_harp || !words.harp.empty()) {
        const auto harp = chosen_harp(*ledger, words.harp);
        if (!harp) return failure(harp.error());
        reminder.harp_id = harp->id;
    }
    const auto id = db::add_reminder(*ledger, ui::author(), reminder);
    if (!id) return failure(id.error());
    return report(common, *ledger, {*id, reminder, std::nullopt});
}

Result<ReminderRecord> reminder_with(const db::Ledger& ledger, const std::string& handle)
{
    const auto id = thing_of_kind(ledger, handle, "reminder");
    if (!id) return failure(id.error());
    const auto all = db::reminders(ledger);
    if (!all) return failure(all.error());
    for (const ReminderRecord& reminder : *all)
        if (reminder.id == *id) return reminder;
    return failure(ErrorCode::not_found, handle + ": no such reminder; `harpkeep reminder list` shows them");
}

Result<void> change(const Common& common, const ReminderWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    auto reminder = reminder_with(*ledger, words.handle);
    if (!reminder) return failure(reminder.error());
    if (!words.words.empty()) reminder->reminder.words = words.words;
    if (rules_named(words) > 0) {
        const auto rule = rule_from(words);
        if (!rule) return failure(rule.error());
        reminder->reminder.rule = *rule;
    }
    const auto changed =
        db::change_reminder(*ledger, ui::author(), reminder->id, reminder->reminder, words.why);
    if (!changed) return failure(changed.error());
    return report(common, *ledger, *reminder);
}

struct DoneWords {
    std::string handle;
    std::string date;
    std::string remarks;
};

Result<void> done(const Common& common, const DoneWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto reminder = reminder_with(*ledger, words.handle);
    if (!reminder) return failure(reminder.error());
    const auto date = date_or_today(words.date);
    if (!date) return failure(date.error());
    const auto id = db::reminder_done(*ledger, ui::author(), reminder->id, *date, words.remarks);
    if (!id) return failure(id.error());
    if (common.json)
        print_json(
            {{"id", to_string(*id)}, {"reminder", to_string(reminder->id)}, {"done_on", iso_date(*date)}});
    else
        print_line(fmt::format("Done {}: {}.", iso_date(*date), reminder->reminder.words));
    return {};
}

Result<void> list(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto names = Names::in(*ledger);
    if (!names) return failure(names.error());
    const auto reminders = db::reminders(*ledger);
    if (!reminders) return failure(reminders.error());
    if (common.json) {
        print_json(json_list(*reminders, *names));
        return {};
    }
    if (reminders->empty()) print_line("No reminders; `harpkeep reminder add WORDS --on DATE` sets one.");
    if (reminders->empty()) return {};
    Table table{{{"Harp"}, {"Reminder"}, {"When"}, {"Last done"}, {"Handle"}}};
    for (const ReminderRecord& record : *reminders)
        table.add_row({names->of(record.reminder.harp_id), record.reminder.words,
                       rule_words(record.reminder.rule), record.last_done ? iso_date(*record.last_done) : "",
                       db::handle_of(record.id)});
    table.print();
    return {};
}

/// "18m" and "2y", as other commands take ages, become a number of months; other words are left for the
/// option to judge. Returns no complaint.
std::string months_of(std::string& text)
{
    const bool years = text.ends_with('y');
    if (text.size() < 2 || text.size() > 5 || (!years && !text.ends_with('m'))) return {};
    const std::string digits = text.substr(0, text.size() - 1);
    if (digits.find_first_not_of("0123456789") != std::string::npos) return {};
    text = std::to_string(std::stoi(digits) * (years ? 12 : 1));
    return {};
}

void add_rule_options(CLI::App& app, ReminderWords& words)
{
    app.add_option("--on", words.on, "on this day");
    app.add_option("--every", words.every_months, "after so many months, again and again: 6, 18m, 2y")
        ->transform(CLI::Validator{months_of, ""})
        ->check(CLI::Range(1, 1200));
    app.add_option("--after", words.after, "what the months are counted from: visit, check or done")
        ->check(CLI::IsMember({"visit", "check", "done"}))
        ->capture_default_str();
    app.add_option("--from", words.from, "where counting begins when there was none yet (default: today)");
    app.add_option("--drift", words.drift_cents, "when a step moved by so many cents since the last visit");
}

} // namespace

void add_command_reminder(CLI::App& app, Common& common, Work& work)
{
    auto& reminder = add_noun(app, "reminder", "what to be reminded of; `harpkeep due` shows what is due");

    const auto adding = add_verb<ReminderWords>(reminder, common, work, "add", "set a reminder", add);
    adding.app->add_option("WORDS", adding.words->words, "what to do")->required();
    adding.app->add_option("--harp", adding.words->harp, "for this harp");
    add_rule_options(*adding.app, *adding.words);

    add_verb<NoWords>(reminder, common, work, "list", "all reminders", list);

    const auto doing = add_verb<DoneWords>(reminder, common, work, "done", "it was done", done);
    doing.app->add_option("HANDLE", doing.words->handle, "as `reminder list` shows it")->required();
    doing.app->add_option("--date", doing.words->date, "when (default: today)");
    doing.app->add_option("--remarks", doing.words->remarks, "anything else");

    const auto changing =
        add_verb<ReminderWords>(reminder, common, work, "change", "correct a reminder", change);
    changing.app->add_option("HANDLE", changing.words->handle, "as `reminder list` shows it")->required();
    changing.app->add_option("--words", changing.words->words, "what to do");
    add_rule_options(*changing.app, *changing.words);
    add_reason_option(*changing.app, changing.words->why);
}

} // namespace harpkeep::cli
