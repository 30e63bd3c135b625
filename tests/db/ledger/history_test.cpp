// SPDX-License-Identifier: MIT
#include "db/ledger/history.hpp"

#include "db/ledger/things.hpp"
#include "db/records/strings.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

struct WithString {
    db::Ledger ledger = ledger_in_memory();
    Uuid harp = db::add_harp(ledger, that_evening(), concert_harp("Heron")).value();
    MountedString string;
    Uuid string_id;

    WithString()
    {
        string.harp_id = harp;
        string.place = *place_from_harp_name("3A");
        string.make.material = "gut";
        string.put_on = Date{2025, 3};
        string_id = db::put_on(ledger, that_evening(), string).value();
    }
    [[nodiscard]] std::vector<StringLife> lives() const { return db::string_lives(ledger, harp).value(); }
};

} // namespace

TEST_CASE("undo_last: what was added becomes void, step by step back", "[db]")
{
    WithString given;
    CHECK(db::undo_last(given.ledger, that_evening())->what == "put a gut string on 3A");
    CHECK(given.lives().empty());
    CHECK(db::undo_last(given.ledger, that_evening())->what == "added the harp Heron");
    CHECK(db::harps(given.ledger)->empty());
    CHECK(db::undo_last(given.ledger, that_evening()).error().code == ErrorCode::refused);
    CHECK(given.ledger.database().integer_of("SELECT count(*) FROM mounted_string") == 1);
}

TEST_CASE("undo_last: what was corrected holds again as before", "[db]")
{
    WithString given;
    MountedString corrected = given.string;
    corrected.make.material = "nylon";
    REQUIRE(db::change_string(given.ledger, that_evening(), given.string_id, corrected, "misread"));
    REQUIRE(db::undo_last(given.ledger, that_evening()));
    CHECK(given.lives()[0].string == given.string);
    CHECK(given.lives()[0].id == given.string_id);
}

TEST_CASE("undo_last: what was voided holds again", "[db]")
{
    WithString given;
    REQUIRE(db::make_void(given.ledger, that_evening(), given.string_id, "by mistake"));
    CHECK(given.lives().empty());
    REQUIRE(db::undo_last(given.ledger, that_evening()));
    REQUIRE(given.lives().size() == 1);
    CHECK(given.lives()[0].string == given.string);
}

TEST_CASE("undo_last: an action of two facts is undone as one", "[db]")
{
    WithString given;
    MountedString next = given.string;
    next.put_on = Date{2026, 1, 9};
    REQUIRE(
        db::put_on(given.ledger, that_evening(), next, {.old_string = db::OldString{RemovalReason::broke}}));
    REQUIRE(db::undo_last(given.ledger, that_evening()));
    REQUIRE(given.lives().size() == 1);
    CHECK_FALSE(given.lives()[0].removal);
}

TEST_CASE("undo_last: leaves alone what another computer did", "[db]")
{
    WithString given;
    const db::Author other{an_evening, "another computer"};
    REQUIRE(db::take_off(given.ledger, other, given.harp, given.string.place, {.removed_on = {2026, 1, 1}}));
    CHECK(db::undo_last(given.ledger, that_evening())->what == "put a gut string on 3A");
}

TEST_CASE("undo_last: is refused when another computer corrected the thing since", "[db]")
{
    WithString given;
    MountedString corrected = given.string;
    corrected.make.material = "nylon";
    const db::Author other{an_evening, "another computer"};
    REQUIRE(db::change_string(given.ledger, other, given.string_id, corrected, "misread"));
    const auto undone = db::undo_last(given.ledger, that_evening());
    REQUIRE_FALSE(undone);
    CHECK(undone.error().code == ErrorCode::refused);
    CHECK(given.lives()[0].string == corrected);
}

TEST_CASE("actions: the youngest first, with what became of them", "[db]")
{
    WithString given;
    REQUIRE(db::undo_last(given.ledger, that_evening()));
    const auto all = db::actions(given.ledger, 10).value();
    REQUIRE(all.size() == 3);
    CHECK(all[0].undoes == all[1].id);
    CHECK(all[1].undone);
    CHECK_FALSE(all[2].undone);
    REQUIRE(all[1].things.size() == 1);
    CHECK(all[1].things[0] == std::pair{given.string_id, std::string{"string"}});
    CHECK(db::actions(given.ledger, 1)->size() == 1);
}

TEST_CASE("facts_of: every statement stays readable with who, when and why", "[db]")
{
    WithString given;
    MountedString corrected = given.string;
    corrected.make.material = "nylon";
    REQUIRE(db::change_string(given.ledger, that_evening(), given.string_id, corrected, "misread"));
    const auto facts = db::facts_of(given.ledger, given.string_id).value();
    REQUIRE(facts.size() == 2);
    CHECK_FALSE(facts[0].holds);
    CHECK(facts[1].holds);
    CHECK(facts[1].reason == "misread");
    CHECK(facts[1].computer == "test computer");
    CHECK(facts[1].recorded == an_evening);
}

TEST_CASE("thing_with_handle: finds by the last eight digits, and by the whole key", "[db]")
{
    WithString given;
    const auto by_handle = db::thing_with_handle(given.ledger, db::handle_of(given.string_id));
    REQUIRE(by_handle);
    CHECK(by_handle->id == given.string_id);
    CHECK(by_handle->kind == "string");
    CHECK(db::thing_with_handle(given.ledger, to_string(given.harp))->kind == "harp");
    CHECK(db::harp_named(given.ledger, db::handle_of(given.harp))->id == given.harp);
    CHECK(db::thing_with_handle(given.ledger, "00000000").error().code == ErrorCode::not_found);
    CHECK(db::thing_with_handle(given.ledger, "xyz").error().code == ErrorCode::invalid_argument);
}
