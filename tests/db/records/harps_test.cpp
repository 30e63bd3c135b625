// SPDX-License-Identifier: MIT
#include "db/records/harps.hpp"

#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("add_harp: what was put in comes out", "[db]")
{
    auto ledger = ledger_in_memory();
    HarpDetails details = concert_harp("Heron");
    details.nickname = "the old lady";
    details.serial_number = "0417";
    details.year_built = 1998;
    details.value = Money{2'100'000, "EUR"};
    details.photo_path = "pictures/heron.jpg";
    details.remarks = "stands by the window";
    const auto id = db::add_harp(ledger, that_evening(), details);
    REQUIRE(id);
    const auto found = db::harp_with_id(ledger, *id);
    REQUIRE(found);
    CHECK(found->id == *id);
    CHECK(found->details == details);
}

TEST_CASE("add_harp: a name is taken whatever its case, and the refusal says by whom", "[db]")
{
    auto ledger = ledger_in_memory();
    REQUIRE(db::add_harp(ledger, that_evening(), concert_harp("Élan")));
    const auto again = db::add_harp(ledger, that_evening(), concert_harp(" élan "));
    REQUIRE_FALSE(again);
    CHECK(again.error().code == ErrorCode::refused);
    CHECK(again.error().message.find("a harp named Élan already") != std::string::npos);
    CHECK(db::harps(ledger)->size() == 1);
}

TEST_CASE("add_harp: a name must be text on one line", "[db]")
{
    auto ledger = ledger_in_memory();
    for (const char* wrong : {"", "  ", "two\nlines", "\xC3\x28"})
        CHECK(db::add_harp(ledger, that_evening(), concert_harp(wrong)).error().code ==
              ErrorCode::invalid_argument);
}

TEST_CASE("harp_named: finds in any case, and an unknown name lists the known ones", "[db]")
{
    auto ledger = ledger_in_memory();
    REQUIRE(db::add_harp(ledger, that_evening(), concert_harp("Wren")));
    REQUIRE(db::add_harp(ledger, that_evening(), concert_harp("Heron")));
    CHECK(db::harp_named(ledger, "HERON")->details.name == "Heron");
    const auto unknown = db::harp_named(ledger, "Kestrel");
    REQUIRE_FALSE(unknown);
    CHECK(unknown.error().code == ErrorCode::not_found);
    CHECK(unknown.error().message.find("Heron, Wren") != std::string::npos);
}

TEST_CASE("change_harp: the new statement holds, and its name is free for nobody else", "[db]")
{
    auto ledger = ledger_in_memory();
    const auto heron = db::add_harp(ledger, that_evening(), concert_harp("Heron")).value();
    HarpDetails corrected = concert_harp("Grey Heron");
    corrected.layout = make_layout({.string_count = 46}).value();
    REQUIRE(db::change_harp(ledger, that_evening(), heron, corrected, "it has 46 strings"));
    CHECK(db::harp_with_id(ledger, heron)->details == corrected);
    CHECK(db::harps(ledger)->size() == 1);
    CHECK(db::add_harp(ledger, that_evening(), concert_harp("Heron")));
    CHECK_FALSE(db::add_harp(ledger, that_evening(), concert_harp("grey heron")));
    CHECK(ledger.database().integer_of("SELECT count(*) FROM harp") == 3);
}

TEST_CASE("harps: are listed by name", "[db]")
{
    auto ledger = ledger_in_memory();
    for (const char* name : {"wren", "Heron", "kestrel"})
        REQUIRE(db::add_harp(ledger, that_evening(), concert_harp(name)));
    std::vector<std::string> names;
    const auto all = db::harps(ledger).value();
    for (const auto& harp : all) names.push_back(harp.details.name);
    CHECK(names == std::vector<std::string>{"Heron", "kestrel", "wren"});
}

TEST_CASE("add_harp: a name of more than a hundred letters is refused, whatever bytes they take", "[db]")
{
    auto ledger = ledger_in_memory();
    std::string umlauts;
    for (int i = 0; i < 100; ++i) umlauts += "\u00e4";
    CHECK(db::add_harp(ledger, that_evening(), concert_harp(umlauts)));
    const auto refused = db::add_harp(ledger, that_evening(), concert_harp(umlauts + "n"));
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::invalid_argument);
    CHECK_THAT(refused.error().message, Catch::Matchers::Contains("the name of the harp has 101 letters"));
}
