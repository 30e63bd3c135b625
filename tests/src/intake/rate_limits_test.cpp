// SPDX-License-Identifier: MIT
#include "intake/rate_limits.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using Catch::Matchers::Contains;

TEST_CASE("rate_limits: the rates of music lose nothing of a concert harp", "[intake]")
{
    const double rate_hz = GENERATE(32000.0, 44100.0, 48000.0, 96000.0);
    CHECK(rate_limits(make_layout({}).value(), Hertz{440.0}, rate_hz).empty());
}

// 8000 samples a second hold 3400 Hz (ITU-T G.712, from memory), and G#7 is 3322.44 Hz (CRC Handbook, by
// octave).
TEST_CASE("rate_limits: telephone sound holds every first partial of a concert harp", "[intake][reference]")
{
    const auto limits = rate_limits(make_layout({}).value(), Hertz{440.0}, 8000.0);
    REQUIRE(limits.size() == 1);
    CHECK_THAT(limits[0],
               Contains("no second partial is left of 1A natural and sharp, 1B, 1C, 1D, 1E, 0F, 0G;"));
}

TEST_CASE("rate_limits: what lies above is named by string and position", "[intake]")
{
    const auto limits = rate_limits(make_layout({}).value(), Hertz{440.0}, 6000.0); // 2550 Hz
    REQUIRE(limits.size() == 2);
    CHECK_THAT(limits[0], Contains("1E natural and sharp, 0F, 0G; record them at 44100 or 48000"));
    CHECK_THAT(limits[1], !Contains("0F"));
}

TEST_CASE("rate_limits: A4 and the kind of harp count", "[intake]")
{
    // E7 of a harp tuned in E flat is E flat 7, 2489 Hz open and 2637 Hz engaged.
    const auto lever = make_layout({.kind = HarpKind::lever,
                                    .lowest = place_from_harp_name("1C"),
                                    .highest = place_from_harp_name("1E")})
                           .value();
    CHECK_THAT(rate_limits(lever, Hertz{440.0}, 6000.0).at(0), Contains(": 1E engaged;"));
    CHECK_THAT(rate_limits(lever, Hertz{460.0}, 6000.0).at(0), Contains(": 1D engaged, 1E;")); // both 2602 Hz
}
