// SPDX-License-Identifier: MIT
#include "live/check_result.hpp"

#include "player.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using harpkeep::test::Player;

namespace {

/// Partials without which no step can be measured.
void add_partials(PluckMeasurement& measured)
{
    for (int n = 1; n <= 5; ++n)
        measured.partials.push_back({.number = n,
                                     .frequency_hz = n * measured.frequency_hz,
                                     .uncertainty_cents = 0.1,
                                     .noise_cents = 0.05,
                                     .level_db = -20.0 - 4.0 * n,
                                     .decay_s = 1.0});
    measured.degrees_of_freedom = 10.0;
}

GuidedCheck two_strings(const HarpLayout& layout, int closing_strings)
{
    return *GuidedCheck::begin(layout, {.way = CheckWay::some_strings,
                                        .strings = {{Letter::C, 4}, {Letter::D, 4}, {Letter::E, 4}},
                                        .closing_strings = closing_strings});
}

double step_cents(const Player& player, const StepError& step)
{
    const auto [lower, upper] = positions_of_step(HarpKind::pedal, step.step);
    return interval(player.pitch(step.place, lower), player.pitch(step.place, upper)).value() - 100.0;
}

} // namespace

TEST_CASE("check_result: a complete guided check gives every step", "[live]")
{
    const auto layout = *make_layout({});
    auto check = two_strings(layout, 0);
    Player player{layout, 1};
    while (!check.complete()) {
        const CheckTarget target = *check.view().next;
        player.pluck(check, target.place, target.position, add_partials);
    }
    const auto result = check_result(check);
    CHECK(result.readings.size() == 9);
    CHECK(result.missing.empty());
    REQUIRE(result.steps.size() == 6);
    for (const StepError& step : result.steps)
        CHECK(step.error_cents ==
              Approx(step_cents(player, step)).margin(0.5)); // two plucks scatter by 0.1 cent each
}

TEST_CASE("check_result: closing strings do not enter the steps, the drift is told", "[live]")
{
    const auto layout = *make_layout({});
    auto check = two_strings(layout, 3);
    Player player{layout, 2};
    while (!check.complete()) {
        if (check.view().closing) player.drift_cents = 8.0;
        const CheckTarget target = *check.view().next;
        player.pluck(check, target.place, target.position, add_partials);
    }
    player.drift_cents = 0.0;
    const auto result = check_result(check);
    CHECK(result.readings.size() == 12);
    for (const StepError& step : result.steps)
        CHECK(step.error_cents == Approx(step_cents(player, step)).margin(0.5)); // as above
    REQUIRE(result.remarks.size() == 1);
    CHECK_THAT(result.remarks.front(), Catch::Contains("moved by +"));
}

TEST_CASE("check_result: what was not sounded is named", "[live]")
{
    const auto layout = *make_layout({});
    auto check = two_strings(layout, 0);
    Player player{layout, 3};
    player.pluck(check, {Letter::C, 4}, Position::flat, add_partials);
    const auto result = check_result(check);
    CHECK(result.readings.size() == 1);
    CHECK(result.missing.size() == 8);
    CHECK(result.steps.empty());
}
