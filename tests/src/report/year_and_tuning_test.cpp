// SPDX-License-Identifier: MIT
#include "report/room_sheet.hpp"
#include "report/string_card.hpp"
#include "report/tuning_list.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::report;

namespace {

VisitRecord visit_on(Date day, std::int64_t cost)
{
    VisitRecord record;
    record.visit.visited_on = day;
    record.visit.cost = Money{cost, "EUR"};
    return record;
}

std::string field_words(const Row& row, const std::string& name)
{
    for (const Field& field : row.fields)
        if (field.name == name)
            return std::holds_alternative<std::int64_t>(field.value)
                       ? std::to_string(std::get<std::int64_t>(field.value))
                       : std::get<std::string>(field.value);
    return "no such field";
}

} // namespace

TEST_CASE("room_sheet: what happened while the harp stood elsewhere is not counted", "[report]")
{
    RoomSheetInput input{
        .room = "Music room 2", .from = {2025, 8, 1}, .until = {2026, 7, 31}, .today = {2026, 8, 1}};
    RoomHarp heron;
    heron.harp.details.name = "Heron";
    heron.harp.details.layout = make_layout({}).value();
    heron.stays = {{{2025, 8, 1}, {2025, 12, 31}}};
    heron.visits = {visit_on({2025, 7, 31}, 1), visit_on({2025, 8, 1}, 18000), visit_on({2025, 12, 31}, 500),
                    visit_on({2026, 1, 1}, 9)};
    StringLife life;
    life.string.place = *place_from_harp_name("3A");
    life.string.put_on = Date{2025, 9, 1};
    life.string.cost = Money{640, "EUR"};
    heron.strings = {life};
    input.harps = {heron};
    const auto document = room_sheet(input);
    const auto& table = std::get<Table>(document.sections[1].blocks[0]);
    REQUIRE(table.rows.size() == 1);
    CHECK(field_words(table.rows[0], "visits") == "2");
    CHECK(field_words(table.rows[0], "visit_cost") == "185.00 EUR");
    CHECK(field_words(table.rows[0], "strings_put_on") == "1");
    CHECK(field_words(table.rows[0], "here") == "until 2025-12-31");
    const auto& facts = std::get<Facts>(document.sections[0].blocks[0]);
    CHECK(facts.facts.back().words == "191.40 EUR");
}

TEST_CASE("string_card: a row for each string, top string first, spares and dates beside", "[report]")
{
    StringCardInput input;
    input.harp.details.layout = make_layout({}).value();
    const StringPlace place = *place_from_harp_name("3A");
    StringLife on;
    on.string = {.place = place,
                 .make = {.material = "nylon", .diameter = Millimetres{0.8}},
                 .put_on = Date{2026, 1, 2}};
    input.strings = {on};
    input.plan = {{{}, {.place = place, .make = {.material = "gut", .diameter = Millimetres{0.9}}}}};
    input.stock = {{.place = place, .make = {.material = "gut"}, .count = 2}};
    const auto document = string_card(input);
    const auto& table = std::get<Table>(document.sections[0].blocks[0]);
    REQUIRE(table.rows.size() == 47);
    CHECK(table.rows.front().cells[0] == "0G");
    CHECK(table.rows.back().cells[0] == "7C");
    const auto row = std::find_if(table.rows.begin(), table.rows.end(),
                                  [](const Row& one) { return one.cells[0] == "3A"; });
    CHECK(row->cells[2] == "gut 0.90 mm (on now: nylon 0.80 mm)");
    CHECK(row->cells[3] == "2026-01-02");
    CHECK(row->cells[4] == "2");
    // Octaves 1 to 3 are usually carried complete ("What is a skeleton set of strings?", a page title).
    CHECK(table.rows[4].cells[0] == "1C");
    CHECK(table.rows[4].cells[4] == "0, carry one");
    CHECK(table.rows[4].cells[1] == "red");
}

// Equal temperament at A4 = 440 Hz: C4 261.626, C flat 4 = B3 246.942, A flat 4 415.305 Hz (MIDI note table,
// printed in many places; from memory).
TEST_CASE("tuned_to: open strings of a pedal harp in equal temperament", "[report][reference]")
{
    const auto strings = tuned_to(make_layout({}).value(), all_temperaments().front(), 440.0);
    REQUIRE(strings.size() == 47);
    for (const TunedString& string : strings) {
        CHECK(string.offset_cents ==
              Approx(0.0).margin(1e-9)); // equal temperament is itself, but for rounding
        if (string.place == *place_from_harp_name("4C"))
            CHECK(string.target_hz == Approx(246.942).margin(0.0005)); // last printed digit
        if (string.place == *place_from_harp_name("3A"))
            CHECK(string.target_hz == Approx(415.305).margin(0.0005)); // last printed digit
    }
}

TEST_CASE("tuning_list: only what is tuned around shows what is left", "[report]")
{
    TuningListInput input;
    input.harp.details.layout = make_layout({}).value();
    const auto plain = tuning_list(input);
    CHECK(std::get<Table>(plain.sections[1].blocks[0]).columns.size() == 6);
    input.around = TuneAroundResult{};
    const auto around = tuning_list(input);
    CHECK(std::get<Table>(around.sections[1].blocks[0]).columns.size() == 8);
}
