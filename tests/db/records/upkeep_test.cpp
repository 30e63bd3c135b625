// SPDX-License-Identifier: MIT
#include "db/ledger/things.hpp"
#include "db/records/checks.hpp"
#include "db/records/climate.hpp"
#include "db/records/loans.hpp"
#include "db/records/notes.hpp"
#include "db/records/reminders.hpp"
#include "db/records/rooms.hpp"
#include "db/records/settings.hpp"
#include "db/records/string_plans.hpp"
#include "db/records/timeline.hpp"
#include "db/records/visits.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>
#include <map>
#include <numeric>

#include <fstream>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

struct WithHarp {
    db::Ledger ledger = ledger_in_memory();
    Uuid harp = db::add_harp(ledger, that_evening(), concert_harp("Heron")).value();
};

constexpr std::int64_t ms_per_day = 86'400'000;

} // namespace

TEST_CASE("rooms: names are unique, and harps stand where they were put last", "[db]")
{
    WithHarp given;
    const auto studio = db::add_room(given.ledger, that_evening(), {"Studio", ""}).value();
    const auto hall = db::add_room(given.ledger, that_evening(), {"Hall", "draughty"}).value();
    CHECK(db::add_room(given.ledger, that_evening(), {"STUDIO", ""}).error().code == ErrorCode::refused);
    REQUIRE(db::place_harp(given.ledger, that_evening(), {given.harp, hall, {2026, 2}}));
    REQUIRE(db::place_harp(given.ledger, that_evening(), {given.harp, studio, {2025, 9, 1}}));
    const auto now = db::current_placements(given.ledger).value();
    REQUIRE(now.size() == 1);
    CHECK(now[0].details.room_id == hall);
    CHECK(db::placements_of(given.ledger, given.harp)->front().details.room_id == studio);
    CHECK(db::room_named(given.ledger, "hall")->details.remarks == "draughty");
    CHECK(db::room_named(given.ledger, "attic").error().message.find("Hall, Studio") != std::string::npos);
    CHECK(db::make_void(given.ledger, that_evening(), hall, "closed").error().code == ErrorCode::refused);
}

TEST_CASE("loans: a harp is with one person at a time", "[db]")
{
    WithHarp given;
    const Loan first{given.harp,        "second-year pupil",       {2025, 9, 1},
                     Date{2026, 6, 30}, "a scratch on the pillar", ""};
    const auto id = db::lend_harp(given.ledger, that_evening(), first).value();
    CHECK(db::lend_harp(given.ledger, that_evening(), {given.harp, "teacher", {2026, 1, 1}}).error().code ==
          ErrorCode::refused);
    Loan longer = first;
    longer.until = Date{2026, 7, 31};
    CHECK(db::change_loan(given.ledger, that_evening(), id, longer, "asked for July"));
    CHECK(db::return_harp(given.ledger, that_evening(), given.harp, {.returned_on = {2025, 8, 1}})
              .error()
              .code == ErrorCode::refused);
    REQUIRE(db::return_harp(given.ledger, that_evening(), given.harp,
                            {.returned_on = {2026, 3, 1}, .condition_back = "3A missing"}));
    CHECK(db::return_harp(given.ledger, that_evening(), given.harp, {.returned_on = {2026, 3, 2}})
              .error()
              .code == ErrorCode::refused);
    CHECK(db::lend_harp(given.ledger, that_evening(), {given.harp, "teacher", {2026, 2, 1}}).error().code ==
          ErrorCode::refused);
    CHECK(db::lend_harp(given.ledger, that_evening(), {given.harp, "teacher", {2026, 3, 1}}));
    const auto loans = db::loans_of(given.ledger, given.harp).value();
    REQUIRE(loans.size() == 2);
    CHECK(loans[0].loan == longer);
    CHECK(loans[0].back->details.condition_back == "3A missing");
    CHECK_FALSE(loans[1].back);
}

TEST_CASE("loans: an end before the beginning is refused", "[db]")
{
    WithHarp given;
    CHECK(db::lend_harp(given.ledger, that_evening(), {given.harp, "pupil", {2026, 2, 1}, Date{2026, 1, 31}})
              .error()
              .code == ErrorCode::refused);
    CHECK(db::lend_harp(given.ledger, that_evening(), {given.harp, "pupil", {2026, 2, 1}, Date{2026, 2}}));
}

TEST_CASE("string plan: a new plan of a place takes the place of the old", "[db]")
{
    WithHarp given;
    PlannedString planned{.harp_id = given.harp,
                          .place = *place_from_harp_name("3A"),
                          .make = {.material = "gut", .diameter = Millimetres{0.9}},
                          .length = Millimetres{300.5}};
    REQUIRE(db::plan_strings(given.ledger, that_evening(), {planned}));
    planned.make.diameter = Millimetres{0.95};
    REQUIRE(db::plan_strings(given.ledger, that_evening(), {planned}));
    const auto plan = db::string_plan(given.ledger, given.harp).value();
    REQUIRE(plan.size() == 1);
    CHECK(plan[0].details == planned);
    planned.place = {Letter::B, 0};
    CHECK_FALSE(db::plan_strings(given.ledger, that_evening(), {planned}));
}

TEST_CASE("change_harp: a compass that loses a place in use is refused", "[db]")
{
    WithHarp given;
    REQUIRE(db::plan_strings(
        given.ledger, that_evening(),
        {{.harp_id = given.harp, .place = *place_from_harp_name("7C"), .make = {.material = "steel"}}}));
    HarpDetails smaller = concert_harp("Heron");
    smaller.layout = make_layout({.string_count = 46}).value();
    const auto result = db::change_harp(given.ledger, that_evening(), given.harp, smaller, "");
    REQUIRE_FALSE(result);
    CHECK(result.error().message.find("7C") != std::string::npos);
}

TEST_CASE("visits: come back with their work and the checks around them", "[db]")
{
    WithHarp given;
    Visit visit{.harp_id = given.harp,
                .visited_on = {2026, 2, 10},
                .technician = "visiting technician",
                .cost = Money{18000, "EUR"},
                .remarks = "play check done"};
    visit.work = {{.place = place_from_harp_name("3A"), .work = "new disc", .parts = "1 disc"},
                  {.pedal = Letter::F, .work = "felt replaced"},
                  {.work = "regulated"}};
    const auto id = db::add_visit(given.ledger, that_evening(), visit).value();
    std::vector<Uuid> checks;
    for (const Moment taken : {moment_at({2026, 1, 5}, 10, 0, 60), moment_at({2026, 2, 10}, 9, 0, 60),
                               moment_at({2026, 2, 10}, 16, 0, 60), moment_at({2026, 3, 1}, 10, 0, 60)})
        checks.push_back(
            db::store_check(given.ledger, that_evening(), header_of(given.harp, taken), {}).value());
    const auto stored = db::visits_of(given.ledger, given.harp).value();
    REQUIRE(stored.size() == 1);
    CHECK(stored[0].id == id);
    CHECK(stored[0].visit == visit);
    CHECK(stored[0].check_before == checks[1]);
    CHECK(stored[0].check_after == checks[2]);
}

TEST_CASE("visits: two checks of the day lie around the visit at any hour", "[db]")
{
    const auto [first_hour, second_hour] = GENERATE(std::pair{8, 11}, std::pair{9, 17}, std::pair{13, 18});
    WithHarp given;
    REQUIRE(
        db::add_visit(given.ledger, that_evening(), {.harp_id = given.harp, .visited_on = {2026, 2, 10}}));
    const auto check_at = [&](int hour) {
        const auto header = header_of(given.harp, moment_at({2026, 2, 10}, hour, 0, 60));
        return db::store_check(given.ledger, that_evening(), header, {}).value();
    };
    const auto first = check_at(first_hour), second = check_at(second_hour);
    const auto stored = db::visits_of(given.ledger, given.harp).value();
    REQUIRE(stored.size() == 1);
    CHECK(stored[0].check_before == first);
    CHECK(stored[0].check_after == second);
}

TEST_CASE("climate: samples of a moment are kept once, however often they are read", "[db]")
{
    WithHarp given;
    const auto room = db::add_room(given.ledger, that_evening(), {"Studio", ""}).value();
    ClimateSeries series{.room_id = room, .source = "logger.csv"};
    for (int hour = 0; hour < 24; ++hour)
        series.samples.push_back(
            {moment_at({2026, 3, 1}, hour, 0, 60), Celsius{20.0 + 0.1 * hour}, RelativeHumidity{45.0}});
    CHECK(db::add_climate(given.ledger, that_evening(), series) == 24);
    CHECK(db::add_climate(given.ledger, that_evening(), series) == 0);
    series.samples.push_back({moment_at({2026, 3, 2}, 0, 0, 60), std::nullopt, RelativeHumidity{44.0}});
    CHECK(db::add_climate(given.ledger, that_evening(), series) == 1);
    const auto samples = db::climate_of_room(given.ledger, room, 0, an_evening.utc_ms).value();
    REQUIRE(samples.size() == 25);
    CHECK(samples == series.samples);
    CHECK(db::climate_series(given.ledger)->size() == 2);
}

TEST_CASE("climate: a harp has the air of the room it stood in, while it stood there", "[db]")
{
    WithHarp given;
    const auto studio = db::add_room(given.ledger, that_evening(), {"Studio", ""}).value();
    const auto hall = db::add_room(given.ledger, that_evening(), {"Hall", ""}).value();
    REQUIRE(db::place_harp(given.ledger, that_evening(), {given.harp, studio, {2026, 1, 1}}));
    REQUIRE(db::place_harp(given.ledger, that_evening(), {given.harp, hall, {2026, 2, 1}}));
    for (const auto& [room, celsius] : {std::pair{studio, 20.0}, std::pair{hall, 15.0}}) {
        ClimateSeries series{.room_id = room, .source = "logger"};
        for (const int month : {1, 2})
            series.samples.push_back(
                {moment_at({2026, month, 15}, 12, month, 0), Celsius{celsius}, std::nullopt});
        REQUIRE(db::add_climate(given.ledger, that_evening(), series));
    }
    const auto air = db::climate_of_harp(given.ledger, given.harp, 0, an_evening.utc_ms).value();
    REQUIRE(air.size() == 2);
    CHECK(air[0].temperature == Celsius{20.0});
    CHECK(air[1].temperature == Celsius{15.0});
}

TEST_CASE("climate: the means of days are those of local days, each at its first sample", "[db][twin]")
{
    WithHarp given;
    ClimateSeries series{.harp_id = given.harp, .source = "logger"};
    std::map<int, std::vector<double>> celsius_by_day;
    for (int hour = 0; hour < 60; hour += 5) {
        const Moment taken{moment_at({2026, 2, 1}, 0, 0, 60).utc_ms + hour * std::int64_t{3'600'000}, 60};
        series.samples.push_back({taken, Celsius{18.0 + 0.1 * hour}, std::nullopt});
        celsius_by_day[days_since_epoch(local_date(taken))].push_back(18.0 + 0.1 * hour);
    }
    REQUIRE(db::add_climate(given.ledger, that_evening(), series));
    const auto days =
        db::climate_of_harp(given.ledger, given.harp, 0, an_evening.utc_ms, db::ClimateDetail::days).value();
    REQUIRE(days.size() == celsius_by_day.size());
    for (const ClimateSample& day : days) {
        const auto& samples = celsius_by_day.at(days_since_epoch(local_date(day.taken)));
        const double mean =
            std::accumulate(samples.begin(), samples.end(), 0.0) / static_cast<double>(samples.size());
        CHECK(day.temperature->value() == Approx(mean).epsilon(1e-12)); // rounding of a sum of five
        CHECK_FALSE(day.humidity);
    }
    CHECK(days.front().taken == series.samples.front().taken);
}

TEST_CASE("climate: what the air cannot be is refused, all of it", "[db]")
{
    WithHarp given;
    const auto add = [&](std::optional<Celsius> temperature, std::optional<RelativeHumidity> humidity,
                         Moment taken) {
        return db::add_climate(
            given.ledger, that_evening(),
            {.harp_id = given.harp, .source = "by hand", .samples = {{taken, temperature, humidity}}});
    };
    CHECK_FALSE(add(Celsius{294.0}, std::nullopt, an_evening));
    CHECK_FALSE(add(std::nullopt, RelativeHumidity{101.0}, an_evening));
    CHECK_FALSE(add(std::nullopt, std::nullopt, an_evening));
    CHECK_FALSE(add(Celsius{20.0}, std::nullopt, {an_evening.utc_ms + 2 * ms_per_day, 0}));
    CHECK(add(Celsius{20.0}, std::nullopt, an_evening));
    CHECK(given.ledger.database().integer_of("SELECT count(*) FROM climate_sample") == 1);
}

TEST_CASE("notes: keep words and files, each file once", "[db]")
{
    WithHarp given;
    const TemporaryFolder folder;
    std::ofstream{folder / "photo.jpg"} << "not really a picture";
    const Note note{.about_id = given.harp,
                    .place = place_from_harp_name("3A"),
                    .noted_on = {2026, 3, 1},
                    .words = "buzzes in flat"};
    REQUIRE(db::add_note(given.ledger, that_evening(), note, {folder / "photo.jpg"}));
    REQUIRE(db::add_note(given.ledger, that_evening(), note, {folder / "photo.jpg"}));
    const auto all = db::notes(given.ledger, given.harp, place_from_harp_name("3A")).value();
    REQUIRE(all.size() == 2);
    REQUIRE(all[0].details.attachments.size() == 1);
    CHECK(all[0].details.attachments[0].file_name == "photo.jpg");
    CHECK(all[0].details.attachments[0].size_bytes == 20);
    CHECK(db::attachment(given.ledger, all[0].details.attachments[0].sha256)->size() == 20);
    CHECK(given.ledger.database().integer_of("SELECT count(*) FROM attachment") == 1);
    CHECK(db::notes(given.ledger, given.harp, place_from_harp_name("4C"))->empty());
    CHECK(db::add_note(given.ledger, that_evening(), note, {folder / "none.jpg"}).error().code ==
          ErrorCode::not_found);
    CHECK(db::notes(given.ledger)->size() == 2);
}

TEST_CASE("reminders: come back with their rule and the last time they were done", "[db]")
{
    WithHarp given;
    const std::vector<Reminder> made{
        {given.harp, "regulation", DueAfterMonths{24, CountedFrom::visit, {2024, 5, 1}}},
        {given.harp, "call when it drifts", DueByDrift{Cents{4.0}}},
        {std::nullopt, "insurance", DueOnDate{{2026, 9}}}};
    std::vector<Uuid> ids;
    for (const Reminder& reminder : made)
        ids.push_back(db::add_reminder(given.ledger, that_evening(), reminder).value());
    REQUIRE(db::reminder_done(given.ledger, that_evening(), ids[2], {2026, 3, 1}, ""));
    const auto stored = db::reminders(given.ledger).value();
    REQUIRE(stored.size() == 3);
    for (std::size_t i = 0; i < stored.size(); ++i) CHECK(stored[i].reminder == made[i]);
    CHECK_FALSE(stored[0].last_done);
    CHECK(stored[2].last_done == Date{2026, 3, 1});
    CHECK_FALSE(
        db::add_reminder(given.ledger, that_evening(), {std::nullopt, "drift", DueByDrift{Cents{4.0}}}));
    CHECK_FALSE(db::add_reminder(given.ledger, that_evening(), {given.harp, "", DueOnDate{{2026, 9}}}));
}

TEST_CASE("settings: a harp's own goes before the one for all", "[db]")
{
    WithHarp given;
    CHECK_FALSE(db::setting(given.ledger, "tolerance", given.harp).value());
    REQUIRE(db::change_setting(given.ledger, that_evening(), "tolerance", std::nullopt, "5"));
    CHECK(db::setting(given.ledger, "tolerance", given.harp).value() == "5");
    REQUIRE(db::change_setting(given.ledger, that_evening(), "tolerance", given.harp, "3"));
    REQUIRE(db::change_setting(given.ledger, that_evening(), "tolerance", given.harp, "4"));
    CHECK(db::setting(given.ledger, "tolerance", given.harp).value() == "4");
    CHECK(db::setting(given.ledger, "tolerance", std::nullopt).value() == "5");
}

TEST_CASE("timeline: tells what happened in order, and what concerned one place", "[db]")
{
    WithHarp given;
    CheckResult result;
    result.steps.push_back({*place_from_harp_name("3A"), Step::lower, 6.2, 0.1, 20.0});
    REQUIRE(db::store_check(given.ledger, that_evening(),
                            header_of(given.harp, moment_at({2026, 1, 5}, 10, 0, 60)), result));
    Visit visit{.harp_id = given.harp, .visited_on = {2025, 2, 10}, .technician = "visiting technician"};
    visit.work = {{.pedal = Letter::A, .work = "felt replaced"}, {.pedal = Letter::F, .work = "rod oiled"}};
    REQUIRE(db::add_visit(given.ledger, that_evening(), visit));
    const auto all = db::timeline(given.ledger, given.harp).value();
    REQUIRE(all.size() == 2);
    CHECK(all[0].words == "visit by visiting technician (pedal A felt replaced; pedal F rod oiled)");
    CHECK(all[1].kind == "check");
    const auto place = db::timeline(given.ledger, given.harp, place_from_harp_name("3A")).value();
    REQUIRE(place.size() == 2);
    CHECK(place[0].words == "visit by visiting technician (pedal A felt replaced)");
    CHECK(place[1].words == "check: lower step +6.2 cents");
    CHECK(db::timeline(given.ledger, given.harp, place_from_harp_name("4C"))->empty());
}
