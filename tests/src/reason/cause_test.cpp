// SPDX-License-Identifier: MIT
#include "reason/cause.hpp"
#include "tests/support/planted_harp.hpp"
#include "tests/support/score_causes.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

CauseReport causes_of(const PlantedHarp& harp)
{
    return find_causes(harp.layout, harp.steps, harp.whole_steps).value();
}

/// A harp of scatter alone, to which a test adds.
PlantedHarp quiet_harp(std::uint64_t seed = 3, int strings = 47)
{
    Dice dice(seed);
    return plant({.string_count = strings, .scatter_cents = 0.5, .missing_share = 0.0}, dice);
}

void add_error(PlantedHarp& harp, Step step, double cents, auto which)
{
    for (auto& error : harp.steps)
        if (error.step == step && which(error.place)) error.error_cents += cents;
    for (auto& whole : harp.whole_steps)
        if (which(whole.place)) whole.error_cents += cents;
}

auto letter_is(Letter letter)
{
    return [letter](StringPlace place) { return place.letter == letter; };
}

auto place_is(const char* name)
{
    return [place = *place_from_harp_name(name)](StringPlace other) { return other == place; };
}

} // namespace

// A small fixed set of what tests/benchmarks/cause_benchmark.cpp measures on a thousand harps of each kind.
TEST_CASE("cause: planted pedals and strings are found", "[reason]")
{
    Dice dice(20240601);
    CauseScore score;
    for (int i = 0; i < 40; ++i) {
        const auto harp = plant({.fewest_pedals = 1,
                                 .most_pedals = 3,
                                 .slope_cents = 4.0,
                                 .fewest_strings = 2,
                                 .most_strings = 4},
                                dice);
        add_to_score(score, harp, causes_of(harp));
    }
    CHECK(score.pedals >= 60);
    CHECK(score.strings >= 90);
    CHECK(score.pedals_found >= 0.95 * score.pedals);
    CHECK(score.strings_found >= 0.98 * score.strings);
    CHECK(score.slopes_found == score.slopes);
    CHECK(score.harps_with_false_alarm <= 1);
    // 95 % intervals of some 180 effects: binomial scatter is 1.6 %.
    CHECK(score.intervals_covering >= 0.90 * score.intervals);
}

TEST_CASE("cause: a sound harp is not blamed", "[reason]")
{
    Dice dice(20240602);
    CauseScore score;
    for (int i = 0; i < 40; ++i) {
        const auto harp = plant({}, dice);
        add_to_score(score, harp, causes_of(harp));
    }
    CHECK(score.harps_with_false_alarm <= 1); // expected 0.1 in 40
}

TEST_CASE("cause: three pedals off the same way do not blame the other four", "[reason][regression]")
{
    auto harp = quiet_harp();
    for (const Letter letter : {Letter::C, Letter::F, Letter::A})
        add_error(harp, Step::upper, 7.0, letter_is(letter));
    const auto report = causes_of(harp);
    REQUIRE(report.faults.size() == 3);
    for (const auto& fault : report.faults) {
        CHECK(fault.kind == CauseKind::pedal);
        CHECK(fault.pattern == StepPattern::upper_only);
        CHECK(fault.greatest_cents ==
              Approx(7.0).margin(0.8)); // three times 0.5 cent over root of six strings
        CHECK(fault.effects.front().rests_on >= 6);
    }
}

TEST_CASE("cause: a natural that is high widens one step and narrows the other", "[reason]")
{
    auto harp = quiet_harp();
    add_error(harp, Step::lower, 9.0, place_is("3G"));
    add_error(harp, Step::upper, -9.0, place_is("3G"));
    const auto report = causes_of(harp);
    REQUIRE(report.faults.size() == 1);
    CHECK(report.faults[0].place == place_from_harp_name("3G"));
    CHECK(report.faults[0].pattern == StepPattern::natural_high);
    CHECK(report.faults[0].effects.size() == 2);
}

TEST_CASE("cause: a slope along the neck is no pedal's fault", "[reason]")
{
    auto harp = quiet_harp();
    for (auto& step : harp.steps)
        if (step.step == Step::lower)
            step.error_cents += 6.0 * (step.place.diatonic_index() - 29.5) / 44.0; // 7E to 0G
    const auto report = find_causes(harp.layout, harp.steps, {}).value();
    REQUIRE(report.faults.size() == 1);
    CHECK(report.faults[0].kind == CauseKind::slope);
    CHECK(report.faults[0].greatest_cents ==
          Approx(6.0).margin(1.0)); // 0.5 cent over root of 45/12 strings, three times
}

TEST_CASE("cause: without its natural a string shows flat to sharp only", "[reason]")
{
    auto harp = quiet_harp();
    add_error(harp, Step::upper, 12.0, place_is("2B"));
    std::erase_if(harp.steps, [](const StepError& s) { return s.place == *place_from_harp_name("2B"); });
    const auto report = causes_of(harp);
    REQUIRE(report.faults.size() == 1);
    CHECK(report.faults[0].pattern == StepPattern::unresolved);
    CHECK(report.faults[0].greatest_cents == Approx(12.0).margin(2.5)); // three times root two of 0.5, shrunk
}

TEST_CASE("cause: every error turned round turns every cause round", "[reason][property]")
{
    Dice dice(5);
    auto harp = plant({.fewest_pedals = 2, .most_pedals = 2, .fewest_strings = 3, .most_strings = 3}, dice);
    const auto report = causes_of(harp);
    for (auto& step : harp.steps) step.error_cents = -step.error_cents;
    for (auto& whole : harp.whole_steps) whole.error_cents = -whole.error_cents;
    const auto turned = causes_of(harp);
    REQUIRE(turned.faults.size() == report.faults.size());
    for (std::size_t i = 0; i < report.faults.size(); ++i) {
        CHECK(turned.faults[i].place == report.faults[i].place);
        CHECK(turned.faults[i].greatest_cents ==
              Approx(-report.faults[i].greatest_cents).epsilon(1e-9)); // rounding
    }
}

TEST_CASE("cause: the order of the readings does not matter", "[reason][property]")
{
    Dice dice(6);
    auto harp = plant({.fewest_pedals = 1, .most_pedals = 1, .fewest_strings = 2, .most_strings = 2}, dice);
    const auto report = causes_of(harp);
    std::reverse(harp.steps.begin(), harp.steps.end());
    const auto reversed = causes_of(harp);
    REQUIRE(reversed.faults.size() == report.faults.size());
    for (std::size_t i = 0; i < report.faults.size(); ++i)
        CHECK(reversed.faults[i].greatest_cents == Approx(report.faults[i].greatest_cents).epsilon(1e-5));
}

TEST_CASE("cause: a lever harp has no pedals to blame", "[reason]")
{
    const auto layout = make_layout({.kind = HarpKind::lever, .string_count = 34}).value();
    Dice dice(9);
    std::vector<StepError> steps;
    for (const auto& string : layout.strings)
        steps.push_back({string.place, Step::lower,
                         0.5 * dice.normal() + (string.place.letter == Letter::F ? 6.0 : 0.0), 0.3, 20.0});
    const auto report = find_causes(layout, steps, {}).value();
    CHECK(report.faults.size() == 5); // the five F levers, each by itself
    for (const auto& fault : report.faults) CHECK(fault.kind == CauseKind::string);
}

TEST_CASE("cause: a few strings say nothing, a pedal of two strings is named as unclear", "[reason]")
{
    auto harp = quiet_harp();
    CHECK_FALSE(find_causes(harp.layout, std::span(harp.steps).first(13), {}));
    std::erase_if(harp.steps, [](const StepError& s) {
        return s.place.letter == Letter::D && s.place.scientific_octave > 3;
    });
    std::erase_if(harp.whole_steps, [](const WholeStepError& s) {
        return s.place.letter == Letter::D && s.place.scientific_octave > 3;
    });
    CHECK(causes_of(harp).unclear_pedals == std::vector{Letter::D});
}
