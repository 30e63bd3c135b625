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

/// The step's goals, a median of 0.15 and a 95 % quantile of 0.5 cent; of the places what was reached when this was
/// last measured, with a margin: the goal is 98 % of the steps and no wrong place.
void demand_reached_limits(const CheckScore& score)
{
    INFO(summary_of(score));
    CHECK(score.found_steps >=
          0.96 * score.measurable_steps); // reached: 1.00, 0.975, 0.985 by way of playing
    CHECK(score.wrong_places <= 3);       // reached: 0, 0, 2 of about 830 readings
    CHECK(score.noises_read == 0);
    CHECK(score.skipped_read == 0);
    CHECK(step_error_quantile_cents(score, 0.5) <= 0.15); // the goal, with two polarisations in every string
    CHECK(step_error_quantile_cents(score, 0.95) <= 0.5); // the goal
    CHECK(score.work_s < 10.0 / 240.0 * score.sound_s);   // four minutes in ten seconds
    WARN(summary_of(score).substr(0, summary_of(score).find('\n')));
}

} // namespace

TEST_CASE("whole harp: pass by pass at 30 dB with mishaps keeps what was reached", "[property]")
{
    demand_reached_limits(battery(PlayingWay::pass_by_pass));
}

TEST_CASE("whole harp: string by string at 30 dB with mishaps keeps what was reached", "[property]")
{
    demand_reached_limits(battery(PlayingWay::string_by_string));
}

TEST_CASE("whole harp: pedal by pedal at 30 dB with mishaps keeps what was reached", "[property]")
{
    demand_reached_limits(battery(PlayingWay::pedal_by_pedal));
}
