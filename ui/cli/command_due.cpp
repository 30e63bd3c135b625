// SPDX-License-Identifier: MIT
#include "db/records/reminders.hpp"
#include "db/records/upkeep.hpp"
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/file_output.hpp"
#include "ui/cli/record_json.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"
#include "ui/support/due_calendar.hpp"

#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

struct DueWords {
    std::string harp;
    std::string until;
    std::string calendar_file;
    UpkeepSettings settings;
};

Json json_of_item(const DueItem& item, Date today)
{
    Json places = Json::array();
    for (const StringPlace place : item.places) places.push_back(harp_name(place));
    return {{"kind", due_kind_name(item.kind)},
            {"harp", item.harp_id ? Json(item.harp) : Json(nullptr)},
            {"due_on", iso_date(item.due_on)},
            {"overdue", item.due_on < today},
            {"what", item.what},
            {"why", item.why},
            {"places", places},
            {"reminder", item.reminder_id ? Json(db::handle_of(*item.reminder_id)) : Json(nullptr)}};
}

void print_items(const std::vector<DueItem>& items, Date today, Date until)
{
    if (items.empty()) {
        print_line(until == today ? "Nothing is due."
                                  : fmt::format("Nothing is due until {}.", iso_date(until)));
        return;
    }
    Table table{{{"Due"}, {"Harp"}, {"What"}, {"Why"}}};
    for (const DueItem& item : items) {
        const std::string handle =
            item.reminder_id ? fmt::format(" (reminder {})", db::handle_of(*item.reminder_id)) : "";
        table.add_row({item.due_on < today ? "since " + iso_date(item.due_on) : iso_date(item.due_on),
                       item.harp, item.what, item.why + handle});
    }
    table.print();
}

Result<void> due(const Common& common, const DueWords& words)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    std::optional<Uuid> harp_id;
    if (!words.harp.empty()) {
        const auto harp = chosen_harp(*ledger, words.harp);
        if (!harp) return failure(harp.error());
        harp_id = harp->id;
    }
    const Date today = local_date(ui::now());
    const auto until = date_or_today(words.until);
    if (!until) return failure(until.error());
    const auto harps = db::harp_upkeep(*ledger, harp_id);
    if (!harps) return failure(harps.error());
    auto reminders = db::reminders(*ledger);
    if (!reminders) return failure(reminders.error());
    if (harp_id)
        std::erase_if(*reminders,
                      [&](const ReminderRecord& record) { return record.reminder.harp_id != harp_id; });
    const auto items = due_work(*harps, *reminders, words.settings, today, last_day(*until));
    if (!words.calendar_file.empty()) {
        const auto calendar = ui::due_calendar(*ledger, *harps, items, ui::now());
        if (!calendar) return failure(calendar.error());
        return write_output(words.calendar_file, *calendar);
    }
    if (common.json) {
        Json all = Json::array();
        for (const DueItem& item : items) all.push_back(json_of_item(item, today));
        print_json(all);
    } else {
        print_items(items, today, last_day(*until));
    }
    return {};
}

} // namespace

void add_command_due(CLI::App& app, Common& common, Work& work)
{
    const auto verb = add_verb<DueWords>(app, common, work, "due", "what needs doing, and why", due);
    auto& words = *verb.words;
    verb.app->add_option("--harp", words.harp, "for this harp only");
    verb.app->add_option("--until", words.until, "what is due until this day (default: today)");
    verb.app->add_option("--ics", words.calendar_file,
                         "write due work and visits as a calendar file instead (- for the terminal)");
    verb.app
        ->add_option("--regulation-months", words.settings.regulation_months, "months between regulations")
        ->check(CLI::Range(1, 1200))
        ->capture_default_str();
    verb.app->add_option("--check-months", words.settings.check_months, "months between checks")
        ->check(CLI::Range(1, 1200))
        ->capture_default_str();
    verb.app
        ->add_option("--treble-months", words.settings.treble_string_months,
                     "months a string of octaves 0 to 2 stays on")
        ->check(CLI::Range(1, 1200))
        ->capture_default_str();
    verb.app->add_option("--wire-months", words.settings.wire_months, "months a wire stays on")
        ->check(CLI::Range(1, 1200))
        ->capture_default_str();
}

} // namespace harpkeep::cli
