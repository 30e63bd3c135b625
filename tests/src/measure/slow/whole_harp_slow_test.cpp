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

void demand_issue_limits(const CheckScore& score)
{
    INFO(summary_of(score));
    CHECK(score.found_steps >= 0.98 * score.measurable_steps); // what the program promises at 30 dB
    CHECK(score.wrong_places == 0);
    CHECK(score.noises_read == 0);
    CHECK(score.skipped_read == 0);
    CHECK(score.skipped_not_named == 0);
    CHECK(step_error_quantile_cents(score, 0.5) <= 0.15); // promised
    CHECK(step_error_quantile_cents(score, 0.95) <= 0.5); // promised
    CHECK(score.work_s < 10.0 / 240.0 * score.sound_s);   // promised: four minutes in ten seconds
    WARN(summary_of(score).substr(0, summary_of(score).find('\n')));
}

} // namespace

TEST_CASE("whole harp: pass by pass at 30 dB with mishaps keeps the promised limits", "[property]")
{
    demand_issue_limits(battery(PlayingWay::pass_by_pass));
}

TEST_CASE("whole harp: string by string at 30 dB with mishaps keeps the promised limits", "[property]")
{
    demand_issue_limits(battery(PlayingWay::string_by_string));
}

TEST_CASE("whole harp: pedal by pedal at 30 dB with mishaps keeps the promised limits", "[property]")
{
    demand_issue_limits(battery(PlayingWay::pedal_by_pedal));
}
