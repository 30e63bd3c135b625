// SPDX-License-Identifier: MIT
#include "units/format.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("format: cents carry their sign, zero has none", "[units]")
{
    CHECK(format_cents(Cents{3.24}) == "+3.2");
    CHECK(format_cents(Cents{-0.44}) == "\u22120.4");
    CHECK(format_cents(Cents{-0.04}) == "0.0");
    CHECK(format_cents(Cents{0.04}) == "0.0");
}

TEST_CASE("format: an uncertainty is never shown as none", "[units]")
{
    CHECK(format_cents(Cents{1.0}, Cents{0.3}) == "+1.0 \u00B1 0.3");
    CHECK(format_cents(Cents{1.0}, Cents{0.02}) == "+1.0 \u00B1 <0.1");
}

TEST_CASE("format: levels and frequencies", "[units]")
{
    CHECK(format_decibels(Decibels{-61.7}) == "\u221262 dB");
    CHECK(format_hertz(Hertz{261.6256}) == "261.63 Hz");
}

TEST_CASE("format: durations as people say them", "[units]")
{
    CHECK(format_duration(Seconds{40.2}) == "40 s");
    CHECK(format_duration(Seconds{372.0}) == "6 min");
    CHECK(format_duration(Seconds{7500.0}) == "2 h 5 min");
}
