// SPDX-License-Identifier: MIT
#include "ui/support/due_calendar.hpp"

#include "db/records/reminders.hpp"
#include "db/records/upkeep.hpp"
#include "tests/ui/report/demo_reports.hpp"

#include <catch2/catch.hpp>
#include <libical/ical.h>

#include <memory>
#include <set>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("due_calendar: libical reads the school's due work, each thing once", "[paper][twin]")
{
    const auto harps = db::harp_upkeep(demo_ledger()).value();
    const auto items =
        due_work(harps, db::reminders(demo_ledger()).value(), {}, demo_day, plus_months(demo_day, 12));
    REQUIRE(items.size() > 5);
    const auto text = ui::due_calendar(demo_ledger(), harps, items, demo_now).value();
    const std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)> calendar{
        icalparser_parse_string(text.c_str()), &icalcomponent_free};
    REQUIRE(calendar);
    CHECK(icalcomponent_count_errors(calendar.get()) == 0);
    CHECK(icalrestriction_check(calendar.get()) == 1);
    std::set<std::string> uids;
    std::size_t tasks = 0;
    for (auto* task = icalcomponent_get_first_component(calendar.get(), ICAL_VTODO_COMPONENT);
         task != nullptr; task = icalcomponent_get_next_component(calendar.get(), ICAL_VTODO_COMPONENT)) {
        ++tasks;
        uids.insert(icalcomponent_get_uid(task));
        CHECK(icalcomponent_get_due(task).is_date == 1);
    }
    CHECK(tasks == items.size());
    CHECK(uids.size() == items.size());
}
