// SPDX-License-Identifier: MIT
#include "harp/harp_layout.hpp"
#include "harp/string_number.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

HarpLayout layout_of(HarpKind kind, int strings)
{
    return make_layout({.kind = kind, .string_count = strings}).value();
}

} // namespace

// Compass of the usual pedal harps: common practice; "Pedal harp", "47-stringed harp" (page titles).
TEST_CASE("layout: usual pedal harps have their compass", "[harp][reference]")
{
    const auto [count, lowest, highest] = GENERATE(std::tuple{47, "7C", "0G"}, std::tuple{46, "7D", "0G"},
                                                   std::tuple{44, "7D", "1E"}, std::tuple{40, "6A", "1E"});
    const auto layout = layout_of(HarpKind::pedal, count);
    CHECK(layout.strings.size() == static_cast<std::size_t>(count));
    CHECK(harp_name(layout.strings.front().place) == lowest);
    CHECK(harp_name(layout.strings.back().place) == highest);
}

TEST_CASE("layout: 47 strings have 45 with three positions and two with one", "[harp]")
{
    const auto layout = layout_of(HarpKind::pedal, 47);
    int three = 0, one = 0;
    for (const auto& string : layout.strings) {
        const auto positions = positions_of(layout.kind, string).size();
        three += positions == 3;
        one += positions == 1;
        CHECK(alteration_of(string, Position::flat) == -1);
    }
    CHECK(three == 45);
    CHECK(one == 2);
}

TEST_CASE("layout: a lever harp in E flat has E, A and B flat when open", "[harp]")
{
    const auto layout = layout_of(HarpKind::lever, 34);
    CHECK(harp_name(layout.strings.back().place) == "1A");
    for (const auto& string : layout.strings) {
        const bool flat = string.place.letter == Letter::E || string.place.letter == Letter::A ||
                          string.place.letter == Letter::B;
        CHECK(alteration_of(string, Position::open) == (flat ? -1 : 0));
        CHECK(positions_of(layout.kind, string) == std::vector{Position::open, Position::engaged});
    }
}

TEST_CASE("layout: levers on some strings only", "[harp]")
{
    const auto layout =
        make_layout({.kind = HarpKind::lever,
                     .string_count = 29,
                     .without_discs = std::vector<StringPlace>{{Letter::G, 4}, {Letter::D, 5}}})
            .value();
    CHECK(positions_of(layout.kind, *find_string(layout, {Letter::G, 4})).size() == 1);
    CHECK(positions_of(layout.kind, *find_string(layout, {Letter::G, 5})).size() == 2);
}

TEST_CASE("layout: what cannot be is refused with a way out", "[harp]")
{
    CHECK_FALSE(make_layout({.string_count = 0}));
    CHECK_FALSE(make_layout({.string_count = 61}));
    CHECK_FALSE(make_layout({.lowest = StringPlace{Letter::C, 5}, .highest = StringPlace{Letter::C, 4}}));
    CHECK_FALSE(make_layout({.tuning = OpenTuning::c_major}));
    const auto none =
        make_layout({.string_count = 40, .without_discs = std::vector<StringPlace>{{Letter::C, 1}}});
    REQUIRE_FALSE(none);
    CHECK(none.error().message.find("6A to 1E") != std::string::npos);
}

// "Compass explained", "Lesson #3 - Understanding the strings of my harp" (page titles).
TEST_CASE("string place: harp octave names, scientific names and numbers", "[harp][reference]")
{
    const auto [harp, scientific, number] =
        GENERATE(std::tuple{"4C", "C4", 24}, std::tuple{"4E", "E4", 22}, std::tuple{"3F", "F4", 21},
                 std::tuple{"4B", "B3", 25}, std::tuple{"0G", "G7", -1}, std::tuple{"7C", "C1", 45},
                 std::tuple{"1E", "E7", 1}, std::tuple{"0F", "F7", 0});
    const auto place = place_from_harp_name(harp);
    REQUIRE(place);
    CHECK(scientific_name(*place) == scientific);
    CHECK(place_from_scientific_name(scientific) == place);
    CHECK(place->number_from_1e() == number);
}

TEST_CASE("string_number: counts from 1E, or from the top of a harp that does not reach it", "[harp]")
{
    const auto at = [](const char* name) { return *place_from_harp_name(name); };
    // common practice, no source
    CHECK(string_number(at("4C"), at("0G")) == 24);
    CHECK(string_number(at("1E"), at("0G")) == 1);
    CHECK_FALSE(string_number(at("0F"), at("0G")));
    CHECK(string_number(at("1E"), at("1E")) == 1);
    CHECK(string_number(at("1A"), at("1A")) == 1);
    CHECK(string_number(at("4C"), at("1A")) == 20);
}

TEST_CASE("string place: names round trip over the whole compass", "[harp][property]")
{
    for (const auto& string : layout_of(HarpKind::pedal, 47).strings) {
        CHECK(place_from_harp_name(harp_name(string.place)) == string.place);
        CHECK(place_from_diatonic_index(string.place.diatonic_index()) == string.place);
    }
    for (const char* wrong : {"", "C", "4", "8C", "4H", "4CC", "-1C", "44C"})
        CHECK_FALSE(place_from_harp_name(wrong));
}
