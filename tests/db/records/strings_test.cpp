// SPDX-License-Identifier: MIT
#include "db/records/strings.hpp"

#include "db/ledger/things.hpp"
#include "db/records/spares.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

struct WithHarp {
    db::Ledger ledger = ledger_in_memory();
    Uuid harp = db::add_harp(ledger, that_evening(), concert_harp("Heron")).value();

    [[nodiscard]] MountedString gut(const char* place, std::optional<Date> put_on) const
    {
        MountedString string;
        string.harp_id = harp;
        string.place = *place_from_harp_name(place);
        string.make.material = "gut";
        string.put_on = put_on;
        return string;
    }
    Result<Uuid> put(const char* place, std::optional<Date> put_on, const db::PutOnOptions& options = {})
    {
        return db::put_on(ledger, that_evening(), gut(place, put_on), options);
    }
    Result<Uuid> off(const char* place, Date removed_on, RemovalReason reason = RemovalReason::broke)
    {
        return db::take_off(ledger, that_evening(), harp, *place_from_harp_name(place),
                            {.removed_on = removed_on, .reason = reason});
    }
};

bool says(const Error& error, const std::string& words)
{
    return error.message.find(words) != std::string::npos;
}

} // namespace

TEST_CASE("put_on: what was put in comes out", "[db]")
{
    WithHarp given;
    MountedString string = given.gut("6C", Date{2025, 11});
    string.make = {.material = "steel",
                   .diameter = Millimetres{0.7},
                   .wrap_material = "copper",
                   .wrap_outer_diameter = Millimetres{1.9},
                   .linear_density = KilogramsPerMetre{0.021},
                   .linear_density_uncertainty = KilogramsPerMetre{0.0001},
                   .supplier = "the string shop"};
    string.batch = "B-7";
    string.cost = Money{1890, "EUR"};
    string.remarks = "turned once";
    const auto id = db::put_on(given.ledger, that_evening(), string).value();
    const auto life = db::string_with_id(given.ledger, id).value();
    CHECK(life.id == id);
    CHECK(life.string == string);
    CHECK_FALSE(life.removal);
}

TEST_CASE("put_on: a place that the harp does not have is refused with its compass", "[db]")
{
    WithHarp given;
    MountedString string = given.gut("4C", Date{2026, 1, 5});
    string.place = {Letter::B, 0};
    const auto result = db::put_on(given.ledger, that_evening(), string);
    REQUIRE_FALSE(result);
    CHECK(result.error().code == ErrorCode::refused);
    CHECK(says(result.error(), "7C to 0G"));
}

TEST_CASE("put_on: a day in the future is refused, today is not", "[db]")
{
    WithHarp given; // the evening of 2026-03-04
    CHECK(given.put("4C", Date{2026, 3, 5}).error().code == ErrorCode::refused);
    CHECK(given.put("4C", Date{2026, 4}).error().code == ErrorCode::refused);
    CHECK(given.put("4C", Date{2026, 3, 4}));
    CHECK(given.put("4D", Date{2026, 3}));
}

TEST_CASE("put_on: a second string on a place is refused with the way out", "[db]")
{
    WithHarp given;
    REQUIRE(given.put("3A", Date{2025, 3}));
    const auto second = given.put("3A", Date{2026, 1});
    REQUIRE_FALSE(second);
    CHECK(second.error().code == ErrorCode::refused);
    CHECK(says(second.error(), "put on 2025-03"));
    CHECK(says(second.error(), "string off 3A --harp Heron"));
}

TEST_CASE("put_on: takes the old string off on the same day when told why", "[db]")
{
    WithHarp given;
    REQUIRE(given.put("3A", Date{2025, 3}));
    REQUIRE(given.put("3A", Date{2026, 1, 9},
                      {.old_string = db::OldString{RemovalReason::broke, BreakPoint::disc}}));
    const auto lives = db::string_lives(given.ledger, given.harp, place_from_harp_name("3A")).value();
    REQUIRE(lives.size() == 2);
    REQUIRE(lives[0].removal);
    CHECK(lives[0].removal->details.removed_on == Date{2026, 1, 9});
    CHECK(lives[0].removal->details.broke_at == BreakPoint::disc);
    CHECK_FALSE(lives[1].removal);
    CHECK(given.put("2A", Date{2026, 1}, {.old_string = db::OldString{}}).error().code == ErrorCode::refused);
}

TEST_CASE("put_on: a string can go on in the month in which the one before came off", "[db]")
{
    WithHarp given;
    REQUIRE(given.put("3A", Date{2025, 3}));
    REQUIRE(given.off("3A", Date{2025, 9}));
    CHECK(given.put("3A", Date{2025, 8, 31}).error().code == ErrorCode::refused);
    CHECK(given.put("3A", Date{2025, 9, 2}));
}

TEST_CASE("put_on: a life of the past can be noted afterwards, but not into another string's time", "[db]")
{
    WithHarp given;
    REQUIRE(given.put("3A", Date{2025, 3}));
    const auto ended = [](Date date) {
        return db::PutOnOptions{.ended =
                                    StringRemoval{.removed_on = date, .reason = RemovalReason::schedule}};
    };
    CHECK(given.put("3A", Date{2023, 1}).error().code == ErrorCode::refused);
    CHECK(given.put("3A", Date{2023, 1}, ended({2025, 6})).error().code == ErrorCode::refused);
    CHECK(given.put("3A", Date{2023, 1}, ended({2022, 6})).error().code == ErrorCode::refused);
    CHECK(given.put("3A", Date{2023, 1}, ended({2025, 2})));
    const auto lives = db::string_lives(given.ledger, given.harp).value();
    REQUIRE(lives.size() == 2);
    CHECK(lives[0].string.put_on == Date{2023, 1});
    CHECK(lives[0].removal->details.reason == RemovalReason::schedule);
}

TEST_CASE("put_on: a string that was on when the ledger began is watched from then", "[db]")
{
    WithHarp given;
    MountedString string = given.gut("4C", std::nullopt);
    CHECK_FALSE(db::put_on(given.ledger, that_evening(), string));
    string.watched_from = Date{2026, 3, 1};
    CHECK(db::put_on(given.ledger, that_evening(), string));
    string = given.gut("4D", Date{2026, 3, 2});
    string.watched_from = Date{2026, 3, 1};
    CHECK(db::put_on(given.ledger, that_evening(), string).error().code == ErrorCode::refused);
}

TEST_CASE("take_off: refuses what cannot be", "[db]")
{
    WithHarp given;
    CHECK(given.off("3A", Date{2026, 1, 1}).error().code == ErrorCode::refused); // no string there
    REQUIRE(given.put("3A", Date{2025, 3, 10}));
    const auto before = given.off("3A", Date{2025, 3, 9});
    REQUIRE_FALSE(before);
    CHECK(says(before.error(), "lies before"));
    CHECK(given.off("3A", Date{2027, 1, 1}).error().code == ErrorCode::refused);
    CHECK_FALSE(db::take_off(
        given.ledger, that_evening(), given.harp, *place_from_harp_name("3A"),
        {.removed_on = {2026, 1, 1}, .reason = RemovalReason::schedule, .broke_at = BreakPoint::knot}));
    CHECK(given.off("3A", Date{2025, 3}));
    CHECK(given.off("3A", Date{2026, 1, 1}).error().code == ErrorCode::refused); // it is off already
}

TEST_CASE("strings_on: has what is on now", "[db]")
{
    WithHarp given;
    REQUIRE(given.put("3A", Date{2025, 3}));
    REQUIRE(given.put("4C", Date{2025, 3}));
    REQUIRE(given.off("3A", Date{2025, 9}));
    const auto on = db::strings_on(given.ledger, given.harp).value();
    REQUIRE(on.size() == 1);
    CHECK(harp_name(on[0].string.place) == "4C");
}

TEST_CASE("change_string: the correction keeps to the same rules", "[db]")
{
    WithHarp given;
    const auto id = given.put("3A", Date{2025, 3}).value();
    REQUIRE(given.put("4C", Date{2025, 3}));
    MountedString corrected = given.gut("3A", Date{2025, 4});
    corrected.make.material = "nylon";
    REQUIRE(db::change_string(given.ledger, that_evening(), id, corrected, "misread"));
    CHECK(db::string_with_id(given.ledger, id)->string == corrected);
    corrected.place = *place_from_harp_name("4C");
    CHECK(db::change_string(given.ledger, that_evening(), id, corrected, "misread").error().code ==
          ErrorCode::refused);
}

TEST_CASE("make_void: a void string takes its removal along, and the place is free", "[db]")
{
    WithHarp given;
    const auto id = given.put("3A", Date{2025, 3}).value();
    REQUIRE(given.off("3A", Date{2025, 9}));
    REQUIRE(db::make_void(given.ledger, that_evening(), id, "never happened"));
    CHECK(db::string_lives(given.ledger, given.harp)->empty());
    CHECK(given.ledger.database().integer_of(
              "SELECT count(*) FROM string_removal JOIN current_content USING (fact_no)") == 0);
    CHECK(given.put("3A", Date{2025, 6}));
}

TEST_CASE("make_void: a harp with strings is refused", "[db]")
{
    WithHarp given;
    REQUIRE(given.put("3A", Date{2025, 3}));
    const auto result = db::make_void(given.ledger, that_evening(), given.harp, "sold");
    REQUIRE_FALSE(result);
    CHECK(says(result.error(), "needed by 1 string;"));
}

TEST_CASE("spares: are counted by kind, and using one takes it from the stock", "[db]")
{
    WithHarp given;
    SpareMovement bought{.place = *place_from_harp_name("3A"),
                         .make = {.material = "gut", .diameter = Millimetres{0.9}},
                         .change = 2,
                         .moved_on = {2026, 1, 1}};
    REQUIRE(db::move_spares(given.ledger, that_evening(), bought));
    MountedString string = given.gut("3A", Date{2026, 2, 1});
    string.make.diameter = Millimetres{0.9};
    REQUIRE(db::put_on(given.ledger, that_evening(), string, {.from_spares = true}));
    auto stock = db::spare_stock(given.ledger).value();
    REQUIRE(stock.size() == 1);
    CHECK(stock[0].count == 1);
    bought.change = -2;
    bought.cause = SpareCause::lost;
    CHECK(db::move_spares(given.ledger, that_evening(), bought).error().code == ErrorCode::refused);
    REQUIRE(db::count_spares(given.ledger, that_evening(), bought, 0));
    CHECK(db::spare_stock(given.ledger)->empty());
    CHECK(db::spare_movements(given.ledger)->size() == 3);
    string.place = *place_from_harp_name("4C");
    CHECK(db::put_on(given.ledger, that_evening(), string, {.from_spares = true}).error().code ==
          ErrorCode::refused);
}
