// SPDX-License-Identifier: MIT
#include "live/check_plan.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

HarpLayout pedal_harp()
{
    return *make_layout({.kind = HarpKind::pedal, .string_count = 47});
}

HarpLayout lever_harp()
{
    return *make_layout({.kind = HarpKind::lever, .string_count = 34});
}

} // namespace

TEST_CASE("make_check_plan: pass by pass sounds every string in each of its positions once", "[live]")
{
    const auto plan = make_check_plan(pedal_harp(), {.closing_strings = 0});
    REQUIRE(plan->stations.size() == 3);
    CHECK(plan->stations[0].targets.size() == 47);
    CHECK(plan->stations[1].targets.size() == 45); // 7C and 7D have no discs
    CHECK(plan->stations[2].targets.size() == 45);
    for (const auto& position : plan->stations[1].setting) CHECK(position == Position::natural);
}

TEST_CASE("make_check_plan: every way covers the same strings and positions", "[live][property]")
{
    const auto way = GENERATE(CheckWay::pass_by_pass, CheckWay::string_by_string, CheckWay::pedal_by_pedal);
    CHECK(make_check_plan(pedal_harp(), {.way = way, .closing_strings = 0})->target_count() == 137);
    CHECK(make_check_plan(lever_harp(), {.way = way, .closing_strings = 0})->target_count() == 68);
}

TEST_CASE("make_check_plan: pedal by pedal goes as the player sees the pedals", "[live]")
{
    const auto plan = make_check_plan(pedal_harp(), {.way = CheckWay::pedal_by_pedal, .closing_strings = 0});
    REQUIRE(plan->stations.size() == 21);
    std::string order;
    for (std::size_t k = 0; k < 21; k += 3)
        order += letter_name(plan->stations[k].targets.front().place.letter);
    CHECK(order == "DCBEFGA");
    CHECK_FALSE(plan->stations[0].setting[static_cast<std::size_t>(Letter::C)]);
}

TEST_CASE("make_check_plan: a lever harp taken string by string names the one lever", "[live]")
{
    const auto plan =
        make_check_plan(lever_harp(), {.way = CheckWay::string_by_string, .closing_strings = 0});
    REQUIRE(plan->stations.size() == 68);
    CHECK(plan->stations[1].single_string == plan->stations[1].targets.front().place);
}

TEST_CASE("make_check_plan: the closing strings are spread over the harp and open", "[live]")
{
    const auto plan = make_check_plan(pedal_harp(), {});
    const auto& closing = plan->stations.back();
    CHECK(closing.closing);
    REQUIRE(closing.targets.size() == 5);
    for (const auto& target : closing.targets) CHECK(target.position == Position::flat);
    CHECK(closing.targets.front().place.diatonic_index() + 30 <
          closing.targets.back().place.diatonic_index());
}

TEST_CASE("make_check_plan: one pedal, one octave, some strings", "[live]")
{
    const auto pedal = make_check_plan(
        pedal_harp(), {.way = CheckWay::one_pedal, .letter = Letter::F, .closing_strings = 0});
    CHECK(pedal->stations.front().targets.size() == 7); // 6F to 0F
    const auto octave =
        make_check_plan(pedal_harp(), {.way = CheckWay::one_octave, .harp_octave = 3, .closing_strings = 0});
    CHECK(octave->stations.front().targets.size() == 7);
    const auto some = make_check_plan(
        pedal_harp(),
        {.way = CheckWay::some_strings, .strings = {{Letter::C, 4}}, .from_top = true, .closing_strings = 0});
    CHECK(some->target_count() == 3);
}

TEST_CASE("make_check_plan: what cannot be is said", "[live]")
{
    CHECK_FALSE(make_check_plan(pedal_harp(), {.way = CheckWay::one_pedal}));
    CHECK_FALSE(make_check_plan(pedal_harp(), {.way = CheckWay::one_octave, .harp_octave = 9}));
    CHECK_FALSE(make_check_plan(pedal_harp(), {.way = CheckWay::some_strings}));
    CHECK_FALSE(make_check_plan(lever_harp(), {.way = CheckWay::some_strings, .strings = {{Letter::G, 7}}}));
}
