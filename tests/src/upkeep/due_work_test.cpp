// SPDX-License-Identifier: MIT
#include "upkeep/due_work.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

constexpr Date today{2026, 3, 4};

HarpUpkeep well_kept()
{
    HarpUpkeep upkeep;
    upkeep.harp.id.bytes[0] = 1;
    upkeep.harp.details.name = "Heron";
    upkeep.harp.details.layout = make_layout({}).value();
    upkeep.last_visit = Date{2025, 6, 1};
    upkeep.last_check = Date{2026, 1, 10};
    return upkeep;
}

StringLife string_at(const char* place, Date put_on, bool wound = false)
{
    StringLife life;
    life.string.place = *place_from_harp_name(place);
    life.string.make.material = wound ? "steel" : "gut";
    if (wound) life.string.make.wrap_material = "copper";
    life.string.put_on = put_on;
    return life;
}

std::vector<DueItem> due(const HarpUpkeep& upkeep, Date until = today)
{
    return due_work({upkeep}, {}, {}, today, until);
}

} // namespace

TEST_CASE("due_work: a harp that is well kept needs nothing", "[upkeep]")
{
    CHECK(due(well_kept()).empty());
}

TEST_CASE("due_work: a regulation two years after the last visit", "[upkeep]")
{
    auto upkeep = well_kept();
    upkeep.last_visit = Date{2024, 3, 4};
    const auto items = due(upkeep);
    REQUIRE(items.size() == 1);
    CHECK(items[0].kind == DueKind::regulation);
    CHECK(items[0].due_on == Date{2026, 3, 4});
    CHECK(items[0].why.find("2024-03-04") != std::string::npos);
    upkeep.last_visit = Date{2024, 3, 5};
    CHECK(due(upkeep).empty());
    CHECK(due(upkeep, {2026, 3, 5}).size() == 1);
}

TEST_CASE("due_work: a new harp after its first year, and one without any visit", "[upkeep]")
{
    auto upkeep = well_kept();
    upkeep.last_visit.reset();
    upkeep.harp.details.year_built = 2025;
    CHECK(due(upkeep).empty());
    CHECK(due(upkeep, {2026, 12, 31}).back().due_on == Date{2026, 12, 31});
    upkeep.harp.details.year_built.reset();
    CHECK(due(upkeep)[0].why == "no visit is noted");
}

TEST_CASE("due_work: old treble strings and old wires, the middle when it needs it", "[upkeep]")
{
    auto upkeep = well_kept();
    upkeep.strings_on = {string_at("1A", {2023, 5}),       string_at("0G", {2024, 2}),
                         string_at("4C", {2015, 1}),       string_at("2C", {2025, 2}),
                         string_at("6C", {2022, 1}, true), string_at("7C", {2025, 1}, true)};
    const auto items = due(upkeep);
    REQUIRE(items.size() == 2);
    CHECK(items[0].what == "change 1 wire: 6C");
    CHECK(items[0].due_on == Date{2025, 1, 1});
    CHECK(items[1].what == "change 2 strings: 1A, 0G");
    CHECK(items[1].due_on == Date{2025, 5, 1});
}

TEST_CASE("due_work: a bare place, a loan that is over, a check that is old", "[upkeep]")
{
    auto upkeep = well_kept();
    upkeep.bare = {*place_from_harp_name("3A")};
    upkeep.last_check = Date{2025, 8, 1};
    upkeep.open_loans = {
        {{}, {upkeep.harp.id, "second-year pupil", {2025, 9, 1}, Date{2026, 2}, "", ""}, {}}};
    const auto items = due(upkeep);
    REQUIRE(items.size() == 3);
    CHECK(items[0].kind == DueKind::check);
    CHECK(items[1].kind == DueKind::loan);
    CHECK(items[1].due_on == Date{2026, 2, 28});
    CHECK(items[2].what == "put a string on: 3A");
}

TEST_CASE("due_work: reminders by date, by months and by drift", "[upkeep]")
{
    auto upkeep = well_kept();
    upkeep.drift_since_visit = Cents{4.2};
    const Uuid harp = upkeep.harp.id;
    std::vector<ReminderRecord> reminders{
        {{}, {std::nullopt, "insurance", DueOnDate{{2026, 3}}}, std::nullopt},
        {{}, {std::nullopt, "done already", DueOnDate{{2026, 3}}}, Date{2026, 2, 1}},
        {{}, {harp, "oil the rods", DueAfterMonths{9, CountedFrom::visit, {2020, 1, 1}}}, std::nullopt},
        {{}, {harp, "not yet", DueAfterMonths{10, CountedFrom::visit, {2020, 1, 1}}}, std::nullopt},
        {{}, {std::nullopt, "dust", DueAfterMonths{1, CountedFrom::done, {2026, 1, 1}}}, Date{2026, 2, 10}},
        {{}, {harp, "drifts", DueByDrift{Cents{4.0}}}, std::nullopt},
        {{}, {harp, "drifts more", DueByDrift{Cents{5.0}}}, std::nullopt}};
    const auto items = due_work({upkeep}, reminders, {}, today, today);
    std::vector<std::string> whats;
    for (const DueItem& item : items) whats.push_back(item.what);
    CHECK(whats == std::vector<std::string>{"insurance", "oil the rods", "drifts"});
    CHECK(items[2].why == "a step moved by 4.2 cents since the last visit; 4.0 were set");
    const auto later = due_work({upkeep}, {reminders[4]}, {}, today, {2026, 3, 10});
    REQUIRE(later.size() == 1);
    CHECK(later[0].due_on == Date{2026, 3, 10});
}

TEST_CASE("due_work: the owner's intervals decide", "[upkeep]")
{
    const auto items = due_work({well_kept()}, {}, {.regulation_months = 9, .check_months = 1}, today, today);
    REQUIRE(items.size() == 2);
    CHECK(items[0].kind == DueKind::check);
    CHECK(items[1].kind == DueKind::regulation);
}
