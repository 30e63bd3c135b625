// SPDX-License-Identifier: MIT
#include "reason/string_history.hpp"

#include "reason/spare_records.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

Uuid key(unsigned char number)
{
    Uuid id;
    id.bytes[15] = number;
    return id;
}

std::vector<HarpRecord> two_harps()
{
    HarpRecord heron{key(1), {.name = "Heron", .layout = make_layout({}).value()}};
    HarpRecord wren{key(2), {.name = "Wren", .layout = make_layout({}).value()}};
    return {heron, wren};
}

Date day(const char* iso)
{
    return date_from_iso(iso).value();
}

StringLife life_on(unsigned char harp, const char* place, const char* put_on)
{
    StringLife life;
    life.string.harp_id = key(harp);
    life.string.place = *place_from_harp_name(place);
    life.string.make = {.material = "gut", .diameter = 1.12_mm};
    if (put_on != nullptr) life.string.put_on = day(put_on);
    return life;
}

StringLife ended(StringLife life, const char* date, RemovalReason reason)
{
    StringRemoval removal{.removed_on = day(date), .reason = reason};
    if (reason == RemovalReason::broke) removal.broke_at = BreakPoint::disc;
    life.removal = Record<StringRemoval>{key(99), removal};
    return life;
}

const Date today = *date_from_iso("2026-03-04");

StringHistory history_of(const std::vector<StringLife>& lives)
{
    return string_history(lives, two_harps(), today);
}

} // namespace

// Reasons for removal as the trade knows them: only breaking is a failure.
TEST_CASE("string_history: only a break ends a life", "[reason]")
{
    const auto reason =
        GENERATE(RemovalReason::broke, RemovalReason::schedule, RemovalReason::tone,
                 RemovalReason::false_string, RemovalReason::whole_set, RemovalReason::unknown);
    const auto history = history_of({ended(life_on(1, "3C", "2025-01-01"), "2025-04-11", reason)});
    REQUIRE(history.observed.size() == 1);
    const auto& string = history.observed.front();
    CHECK(string.broke == (reason == RemovalReason::broke));
    CHECK(string.broke_at == (string.broke ? "disc" : ""));
    CHECK(string.age_at_entry_days == 0.0);
    CHECK(string.age_at_exit_days == 100.0);
    CHECK(history.in_use.empty());
    CHECK(history.unknown_reason == (reason == RemovalReason::unknown ? 1 : 0));
}

TEST_CASE("string_history: a string that was on already enters at its age", "[reason]")
{
    auto life = life_on(1, "3C", "2024-03-04");
    life.string.watched_from = day("2025-03-04");
    const auto history = history_of({life});
    CHECK(history.observed.front().age_at_entry_days == 365.0);
    CHECK(history.observed.front().age_at_exit_days == 730.0);
    CHECK(history.in_use.front().age_days == 730.0);
    CHECK(history.in_use.front().watched_days == 365.0);
    CHECK(history.calendar_years == Approx(365.0 / 365.25));
}

TEST_CASE("string_history: of a string of unknown age only the watching is known", "[reason]")
{
    auto life = life_on(1, "3C", nullptr);
    life.string.watched_from = day("2025-03-04");
    const auto history = history_of({life});
    CHECK(history.observed.empty());
    CHECK(history.unknown_age == 1);
    CHECK_FALSE(history.in_use.front().age_days);
    CHECK(history.in_use.front().least_age_days() == 365.0);
    CHECK(history_sentences(history).front() ==
          "Of 1 string nobody knows when put on: left out of what is learnt about lives.");
}

TEST_CASE("string_history: vague dates are taken in the middle and never turn a life round", "[reason]")
{
    const auto month = history_of({life_on(1, "3C", "2026-01")});
    CHECK(month.vague_dates == 1);
    CHECK(month.in_use.front().age_days == 47.0); // from 16 January
    const auto short_life =
        history_of({ended(life_on(1, "3C", "2025-06-20"), "2025-06", RemovalReason::broke)});
    CHECK(short_life.observed.front().age_at_exit_days == 0.5); // the month's middle lies before the 20th
    const auto same_day =
        history_of({ended(life_on(1, "3C", "2025-06-20"), "2025-06-20", RemovalReason::broke)});
    CHECK(same_day.observed.front().age_at_exit_days == 0.5);
}

TEST_CASE("string_history: a harp that left takes its strings along", "[reason]")
{
    auto harps = two_harps();
    harps[0].details.left_on = day("2025-06-01");
    const auto history = string_history(std::vector{life_on(1, "3C", "2025-01-01")}, harps, today);
    CHECK(history.in_use.empty());
    CHECK(history.observed.front().age_at_exit_days == 151.0);
    CHECK_FALSE(history.observed.front().broke);
}

TEST_CASE("string_history: speaks of a day as it was then", "[reason]")
{
    const std::vector lives{ended(life_on(1, "3C", "2025-01-01"), "2025-06-01", RemovalReason::broke),
                            life_on(1, "3C", "2025-06-01")};
    const auto then = string_history(lives, two_harps(), day("2025-03-02"));
    REQUIRE(then.observed.size() == 1);
    CHECK_FALSE(then.observed.front().broke);
    CHECK(then.in_use.front().age_days == 60.0);
    CHECK(history_of(lives).observed.size() == 2);
}

TEST_CASE("string_history: materials and kinds by name", "[reason]")
{
    const StringMake wire{.material = "steel",
                          .diameter = 0.75_mm,
                          .wrap_material = "copper",
                          .wrap_outer_diameter = 2.10_mm,
                          .supplier = "one"};
    CHECK(life_material(wire) == "wound steel");
    CHECK(life_material({}) == "unknown material");
    CHECK(spare_kind_name(*place_from_harp_name("6C"), wire) == "6C steel 0.75 mm in copper 2.10 mm");
    auto other = wire;
    other.supplier = "another";
    CHECK(spare_kind_name({}, other) == spare_kind_name({}, wire)); // who supplied it makes no difference
    CHECK(spare_kind_name(*place_from_harp_name("3C"), {.material = "gut"}) == "3C gut");
}

TEST_CASE("spare_situation: stock, price and what is kept for one harp", "[reason]")
{
    auto own = life_on(1, "3C", "2025-01-01"), other = life_on(2, "3C", "2025-01-01");
    const auto history = history_of({own, other});
    const auto place = own.string.place;
    const auto make = own.string.make;
    const std::vector<SpareStock> stock{{std::nullopt, place, make, 2}, {key(1), place, make, 1}};
    std::vector<SpareMovementRecord> movements(2);
    movements[0].details = {
        .place = place, .make = make, .change = 4, .moved_on = day("2024-01-01"), .cost = Money{4000, "EUR"}};
    movements[1].details = {
        .place = place, .make = make, .change = 3, .moved_on = day("2025-01-01"), .cost = Money{1000, "EUR"}};
    const auto situation = spare_situation(history.in_use, stock, movements, {}, two_harps());
    REQUIRE(situation.kinds.size() == 2);
    CHECK(situation.kinds[0].name == "3C gut 1.12 mm");
    CHECK(situation.kinds[0].in_stock == 2);
    CHECK(situation.kinds[0].unit_price_minor_units == 334); // youngest purchase, a third of 10.00 rounded up
    CHECK(situation.kinds[1].name == "3C gut 1.12 mm for Heron");
    CHECK(situation.kinds[1].in_stock == 1);
    CHECK(situation.in_use[0].kind == "3C gut 1.12 mm for Heron");
    CHECK(situation.in_use[1].kind == "3C gut 1.12 mm");
}

TEST_CASE("spare_situation: without purchases the price of a string put on counts", "[reason]")
{
    auto life = life_on(1, "3C", "2025-01-01");
    life.string.cost = Money{480, "GBP"};
    const auto history = history_of({life});
    const auto situation = spare_situation(history.in_use, {}, {}, std::vector{life}, two_harps());
    CHECK(situation.kinds[0].in_stock == 0);
    CHECK(situation.kinds[0].unit_price_minor_units == 480);
    CHECK(situation.kinds[0].currency == "GBP");
}
