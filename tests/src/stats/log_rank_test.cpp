// SPDX-License-Identifier: MIT
#include "stats/log_rank.hpp"

#include "published_lives.hpp"
#include "random_lives.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep::stats;

// 6-MP against placebo: 16.8, as in the textbooks (R survival: 16.793).
TEST_CASE("log_rank: 6-MP against placebo", "[stats][reference]")
{
    const std::vector groups{published::mercaptopurine(), published::placebo()};
    const auto test = log_rank(groups);
    REQUIRE(test);
    CHECK(test->chi_squared == Approx(16.8).margin(0.05)); // one decimal
    CHECK(test->degrees_of_freedom == 1);
    CHECK(test->observed == std::vector{9.0, 21.0});
    CHECK(test->expected[0] + test->expected[1] == Approx(30.0).epsilon(1e-12)); // rounding
    CHECK(test->p_value < 1e-4);
}

TEST_CASE("log_rank: a group against its own copy shows no difference", "[stats][property]")
{
    const std::vector groups{published::placebo(), published::placebo(), published::placebo()};
    const auto test = log_rank(groups);
    CHECK(test->chi_squared == Approx(0.0).margin(1e-10)); // rounding
    CHECK(test->degrees_of_freedom == 2);
    CHECK(test->p_value == Approx(1.0).margin(1e-6));
}

TEST_CASE("log_rank: the order of groups does not matter", "[stats][property]")
{
    std::mt19937_64 random{21};
    std::vector<std::vector<LifeObservation>> groups;
    for (const double scale : {300.0, 400.0, 600.0})
        groups.push_back(random_lives::draw(random, {1.5, scale}, 30, {.late_share = 0.3}));
    const auto test = log_rank(groups);
    std::swap(groups[0], groups[2]);
    CHECK(log_rank(groups)->chi_squared == Approx(test->chi_squared).epsilon(1e-9)); // rounding
}

TEST_CASE("log_rank: says nothing when there is nothing to compare", "[stats]")
{
    CHECK_FALSE(log_rank(std::vector<std::vector<LifeObservation>>{published::placebo()}));
    CHECK_FALSE(log_rank(std::vector{published::lives({}, {3}), published::lives({}, {4})}));
    // never at risk together
    CHECK_FALSE(log_rank(std::vector<std::vector<LifeObservation>>{{{0, 1, true}}, {{2, 3, true}}}));
}
