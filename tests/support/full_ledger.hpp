// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/history.hpp"
#include "db/ledger/things.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/settings.hpp"
#include "db/records/spares.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "tests/support/example_ledger.hpp"

#include <limits>

namespace harpkeep::test {

/// Texts that spreadsheets, quotes and line ends trip over.
inline const std::vector<std::string> awkward_texts{"=SUM(A1:A9)",
                                                    "a, \"b\" and 'c'",
                                                    "two\nlines",
                                                    "two\r\nlines",
                                                    "\u00DCberholt \u266D\u266E\u266F",
                                                    "'=quoted",
                                                    "+49 30 1",
                                                    "-",
                                                    "\ttab",
                                                    " spaces ",
                                                    "#1",
                                                    "null",
                                                    "007"};

/// Something in every table of the ledger, corrections and a void thing among it; 2026-03-04.
class FullLedger {
  public:
    explicit FullLedger(db::Ledger& ledger, const TemporaryFolder& folder) : ledger_(ledger)
    {
        add_harps_and_rooms();
        add_strings();
        add_checks();
        add_visits_and_loans();
        add_the_rest(folder);
    }
    Uuid heron, linnet, hall;

  private:
    void add_harps_and_rooms()
    {
        HarpDetails details = concert_harp("Heron");
        details.nickname = awkward_texts[0];
        details.maker = awkward_texts[1];
        details.serial_number = awkward_texts[12];
        details.year_built = 2009;
        details.value = Money{2'100'000, "EUR"};
        details.remarks = awkward_texts[3];
        heron = db::add_harp(ledger_, that_evening(), details).value();
        HarpDetails lever = concert_harp("Linnet, the \"small\" one");
        lever.layout = make_layout({.kind = HarpKind::lever, .string_count = 34}).value();
        lever.left_on = Date{2025, 6};
        linnet = db::add_harp(ledger_, that_evening(), lever).value();
        details.remarks = awkward_texts[2];
        done(db::change_harp(ledger_, that_evening(), heron, details, "read again"));
        hall = db::add_room(ledger_, that_evening(), {"Hall", awkward_texts[4]}).value();
        done(db::place_harp(ledger_, that_evening(), {heron, hall, {2025, 9}}));
        done(db::place_harp(ledger_, that_evening(), {heron, std::nullopt, {2026}}));
    }

    void add_strings()
    {
        const StringPlace place = *place_from_harp_name("3A");
        MountedString string{.harp_id = heron, .place = place, .make = {.material = "gut"}};
        string.make.diameter = 0.1_mm + 0.2_mm; // not what it looks like in binary
        string.make.supplier = awkward_texts[5];
        string.cost = Money{480, "JPY"};
        string.put_on = Date{2024, 2, 29};
        string.remarks = awkward_texts[6];
        done(db::put_on(ledger_, that_evening(), string));
        done(db::take_off(
            ledger_, that_evening(), heron, place,
            {.removed_on = {2025, 1, 3}, .reason = RemovalReason::broke, .broke_at = BreakPoint::disc}));
        MountedString wire{.harp_id = heron, .place = *place_from_harp_name("6C")};
        wire.make = {.material = "steel",
                     .diameter = 1.0_mm,
                     .wrap_material = "copper",
                     .wrap_outer_diameter = 2.4_mm,
                     .linear_density = KilogramsPerMetre{0.0312}};
        wire.watched_from = Date{2026, 1, 1};
        done(db::put_on(ledger_, that_evening(), wire));
        done(db::plan_strings(
            ledger_, that_evening(),
            {{.harp_id = heron, .place = place, .make = {.material = "gut"}, .length = 612.5_mm}}));
        done(db::move_spares(
            ledger_, that_evening(),
            {.place = place, .make = {.material = "gut"}, .change = 3, .moved_on = {2025, 5}}));
        string.put_on = Date{2025, 1, 4};
        done(db::put_on(ledger_, that_evening(), string, {.from_spares = true}));
    }

    void add_checks()
    {
        CheckResult result = whole_check(concert_harp("").layout, 7);
        result.missing.push_back({*place_from_harp_name("0G"), Position::sharp});
        result.ignored.push_back({.file_index = 0, .start_s = 1.25, .reason = awkward_texts[8]});
        result.remarks = {awkward_texts[9], awkward_texts[7]};
        result.steps[0].degrees_of_freedom = std::numeric_limits<double>::infinity();
        CheckHeader header = header_of(heron, {an_evening.utc_ms + 123, -210});
        header.temperature = Celsius{20.3};
        header.remarks = awkward_texts[10];
        const auto check = db::store_check(ledger_, that_evening(), header, result).value();
        // As checks were kept up to schema 5: a row for each step.
        ledger_.database()
            .prepare("INSERT INTO check_step SELECT fact_no, 7, 0, 1500000, 70000, 250 FROM fact "
                     "JOIN thing USING (thing_no) WHERE thing.id = :id")
            .bind(":id", check)
            .run();
        const auto wrong = db::store_check(ledger_, that_evening(), header_of(heron, an_evening), {}).value();
        done(db::make_void(ledger_, that_evening(), wrong, "the wrong harp"));
    }

    void add_visits_and_loans()
    {
        Visit visit{.harp_id = heron, .visited_on = {2026, 2, 10}, .technician = awkward_texts[11]};
        visit.cost = Money{18'000, "EUR"};
        visit.work = {{.place = *place_from_harp_name("3A"), .work = "new disc", .parts = "1 disc"},
                      {.pedal = Letter::F, .work = "felt, replaced"},
                      {.work = "=regulated"}};
        done(db::add_visit(ledger_, that_evening(), visit));
        done(db::lend_harp(ledger_, that_evening(),
                           {heron, awkward_texts[4], {2025, 3}, Date{2025, 12}, "a scratch on the pillar"}));
        done(db::return_harp(ledger_, that_evening(), heron,
                             {.returned_on = {2025, 12, 24}, .condition_back = "as before"}));
    }

    void add_the_rest(const TemporaryFolder& folder)
    {
        done(db::add_climate(ledger_, that_evening(),
                             {.room_id = hall,
                              .source = "logger,1.csv",
                              .samples = {{{an_evening.utc_ms - 1, 60}, Celsius{20.1}, {}},
                                          {an_evening, {}, RelativeHumidity{45.5}}}}));
        tests::write_bytes(folder / "odd name.bin", std::string("\0\xFF\r\n\"", 5));
        done(db::add_note(ledger_, that_evening(),
                          {.about_id = heron,
                           .place = *place_from_harp_name("3A"),
                           .noted_on = {2026, 1, 1},
                           .words = awkward_texts[2]},
                          {folder / "odd name.bin"}));
        done(db::add_note(ledger_, that_evening(),
                          {.about_id = hall, .noted_on = {2026}, .words = "draughty"}));
        const auto tune =
            db::add_reminder(ledger_, that_evening(),
                             {std::nullopt, "order strings", DueAfterMonths{6, CountedFrom::done, {2025, 1}}})
                .value();
        done(db::add_reminder(ledger_, that_evening(), {heron, "regulate", DueByDrift{Cents{4.5}}}));
        done(db::add_reminder(ledger_, that_evening(), {heron, "insure", DueOnDate{{2027, 1}}}));
        done(db::reminder_done(ledger_, that_evening(), tune, {2025, 8, 1}, ""));
        done(db::change_setting(ledger_, that_evening(), "example", heron, R"({"words": "\"a\", b"})"));
        done(db::undo_last(ledger_, that_evening()));
        done(db::change_setting(ledger_, that_evening(), "example", std::nullopt, "[1, 2.5]"));
    }

    db::Ledger& ledger_;
};

} // namespace harpkeep::test
