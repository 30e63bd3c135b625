// SPDX-License-Identifier: MIT
#include "tests/support/whole_harp.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

/// Six checks of one way of playing: both directions, three harps and three sets of mishaps each.
CheckScore battery(PlayingWay way)
{
    std::vector<CheckScore> scores;
    for (const Direction direction : {Direction::low_to_high, Direction::high_to_low})
        for (std::uint64_t seed = 1; seed <= 3; ++seed)
            scores.push_back(run_case({.way = way, .direction = direction, .seed = seed}));
    return sum_of(scores);
}

/// Of the steps whose strings were sounded 98 % are found; no place is wrong, nothing is read that did not
/// sound, every string left out is named; the steps' errors have a median of 0.15 and a 95 % quantile of 0.5
/// cent.
void demand_right_places(const CheckScore& score)
{
    INFO(summary_of(score));
    CHECK(score.found_steps >= 0.98 * score.measurable_steps);
    CHECK(score.wrong_places == 0);
    CHECK(score.noises_read == 0);
    CHECK(score.skipped_read == 0);
    CHECK(score.skipped_not_named == 0);
    CHECK(step_error_quantile_cents(score, 0.5) <= 0.15); // with two polarisations in every string
    CHECK(step_error_quantile_cents(score, 0.95) <= 0.5);
    CHECK(score.work_s < 10.0 / 240.0 * score.sound_s); // four minutes in ten seconds
    WARN(summary_of(score).substr(0, summary_of(score).find('\n')));
}

void demand_all(PlayingWay way)
{
    demand_right_places(battery(way));
}

} // namespace

TEST_CASE("whole harp: pass by pass at 30 dB with mishaps finds 98 % and no wrong place", "[property]")
{
    demand_all(PlayingWay::pass_by_pass);
}

TEST_CASE("whole harp: string by string at 30 dB with mishaps finds 98 % and no wrong place", "[property]")
{
    demand_all(PlayingWay::string_by_string);
}

TEST_CASE("whole harp: pedal by pedal at 30 dB with mishaps finds 98 % and no wrong place", "[property]")
{
    demand_all(PlayingWay::pedal_by_pedal);
}

TEST_CASE("whole harp: other harps, pitches and tunings, with mishaps, are placed as well", "[property]")
{
    const auto other =
        GENERATE(WholeHarpCase{.way = PlayingWay::pass_by_pass,
                               .layout = {.kind = HarpKind::lever, .string_count = 34},
                               .harp_offset_cents = -40.0},
                 WholeHarpCase{.way = PlayingWay::string_by_string,
                               .direction = Direction::high_to_low,
                               .layout = {.string_count = 40},
                               .a4 = Hertz{442.0}},
                 WholeHarpCase{.way = PlayingWay::pedal_by_pedal,
                               .direction = Direction::high_to_low,
                               .harp_offset_cents = 40.0,
                               .untuned_strings = 3},
                 WholeHarpCase{.way = PlayingWay::pass_by_pass, .a4 = Hertz{415.0}, .told_a4 = Hertz{415.0}});
    demand_right_places(run_case(other));
}
