// SPDX-License-Identifier: MIT
#include "reason/measured_inharmonicity.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

constexpr StringPlace middle_c{Letter::C, 4};

Reading reading_of(Position position, double b)
{
    Reading reading{.place = middle_c, .position = position};
    reading.pluck.inharmonicity = b;
    return reading;
}

} // namespace

TEST_CASE("measured_inharmonicity: positions are taken back to the open length", "[reason]")
{
    const double b = 1.4e-4, semitone = std::exp2(1.0 / 12.0);
    // B = pi^3 E d^4 / (64 T L^2) at the same T, with L shorter by one and by two semitones
    const std::vector readings{reading_of(Position::flat, b),
                               reading_of(Position::natural, b * semitone * semitone),
                               reading_of(Position::sharp, b * std::pow(semitone, 4))};
    const auto measured = measured_inharmonicity(readings, middle_c);
    REQUIRE(measured);
    CHECK(measured->value == Approx(b).epsilon(1e-12));                      // rounding
    CHECK(measured->standard_uncertainty == Approx(0.02 * b).epsilon(1e-9)); // the least that is believed
}

TEST_CASE("measured_inharmonicity: uses trusted readings of the place only", "[reason]")
{
    auto doubtful = reading_of(Position::flat, 9e-4);
    doubtful.pluck.doubts = {Doubt::beating};
    auto neighbour = reading_of(Position::flat, 8e-4);
    neighbour.place = {Letter::D, 4};
    const std::vector readings{doubtful, neighbour, reading_of(Position::flat, 1e-4)};
    const auto measured = measured_inharmonicity(readings, middle_c);
    CHECK(measured->value == 1e-4);
    CHECK(measured->standard_uncertainty == Approx(2e-5)); // one reading alone: 20 %
    CHECK_FALSE(measured_inharmonicity(readings, {Letter::E, 4}));
}
