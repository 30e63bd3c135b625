// SPDX-License-Identifier: MIT
#include "reason/step_geometry.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

// Exact arithmetic on 2^(1/12), rounded to six decimals.
TEST_CASE("sounding length: shares of the open string that a semitone takes", "[reason][reference]")
{
    const auto natural = sounding_length(1000.0_mm, Position::natural);
    const auto sharp = sounding_length(1000.0_mm, Position::sharp);
    CHECK(1000.0 - natural.value() == Approx(56.126).margin(5e-4));  // last digit
    CHECK((natural - sharp).value() == Approx(52.976).margin(5e-4)); // last digit
    CHECK(1000.0 - sharp.value() == Approx(109.101).margin(1e-3));   // sum of two rounded figures
    CHECK(sounding_length(700.0_mm, Position::open) == 700.0_mm);
}

TEST_CASE("length for one cent: hundred of them make nearly a semitone", "[reason][twin]")
{
    CHECK(length_for_one_cent(1000.0_mm).value() == Approx(0.577623).margin(5e-7)); // last digit
    // Walked cent by cent, the length shrinks by the ratio of a semitone; second order is 1.7e-7 a cent.
    auto length = 1000.0_mm;
    for (int i = 0; i < 100; ++i) length -= length_for_one_cent(length);
    CHECK(length.value() == Approx(sounding_length(1000.0_mm, Position::natural).value()).margin(0.02));
}

// Exact arithmetic on the formula, rounded to two decimals: bass, middle and top of a harp.
TEST_CASE("grip: a fraction of a cent in the bass, several in the treble", "[reason][reference]")
{
    CHECK(pitch_raised_by_grip({1.5_mm, 60.0_mm, 950.0_mm, 1100.0_mm, 40.0}).value() ==
          Approx(0.63).margin(0.005)); // last digit
    CHECK(pitch_raised_by_grip({1.2_mm, 20.0_mm, 330.0_mm, 400.0_mm, 40.0}).value() ==
          Approx(3.31).margin(0.005)); // last digit
    CHECK(pitch_raised_by_grip({0.5_mm, 4.5_mm, 70.0_mm, 95.0_mm, 25.0}).value() ==
          Approx(6.73).margin(0.005)); // last digit
}
