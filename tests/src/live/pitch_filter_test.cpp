// SPDX-License-Identifier: MIT
#include "live/pitch_filter.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace harpkeep;

namespace {

PitchReading reading_at(double time_s, double cents)
{
    return {Seconds{time_s}, Cents{cents}, Cents{0.5}};
}

} // namespace

TEST_CASE("pitch filter: at rest the shown pitch scatters by 0.3 cent and says so", "[live]")
{
    PitchFilter filter;
    std::mt19937 random{1};
    std::normal_distribution<double> scatter{0.0, 0.5};
    double squares = 0.0;
    SteadyPitch shown;
    for (int k = 0; k < 2000; ++k) {
        shown = filter(reading_at(0.05 * k, 3.0 + scatter(random)));
        if (k >= 100) squares += std::pow(shown.deviation.value() - 3.0, 2);
    }
    const double seen = std::sqrt(squares / 1900.0);
    CHECK(seen < 0.3);
    CHECK(shown.uncertainty.value() ==
          Approx(seen).epsilon(0.3)); // the filter allows for wandering that is not there
}

TEST_CASE("pitch filter: after a jump of 20 cents it is within 1 cent in 0.1 s", "[live]")
{
    PitchFilter filter;
    for (int k = 0; k < 40; ++k) (void)filter(reading_at(0.05 * k, 0.0));
    (void)filter(reading_at(2.00, 20.0));
    const auto shown = filter(reading_at(2.05, 20.0));
    CHECK(shown.deviation.value() == Approx(20.0).margin(1.0));
    CHECK(shown.turning);
}

TEST_CASE("pitch filter: one stray reading hardly moves it", "[live]")
{
    PitchFilter filter;
    for (int k = 0; k < 40; ++k) (void)filter(reading_at(0.05 * k, 0.0));
    const auto shown = filter(reading_at(2.0, 30.0));
    CHECK(std::abs(shown.deviation.value()) < 1.5);
    CHECK_FALSE(shown.turning);
}

TEST_CASE("pitch filter: lags a pin that turns 10 cents a second by less than 1.5 cents", "[live]")
{
    PitchFilter filter;
    double worst = 0.0;
    for (int k = 0; k < 100; ++k) {
        const double cents = 0.5 * k;
        const auto shown = filter(reading_at(0.05 * k, cents));
        worst = std::max(worst, std::abs(shown.deviation.value() - cents));
    }
    CHECK(worst < 1.5);
}

TEST_CASE("pitch filter: forgets on reset", "[live]")
{
    PitchFilter filter;
    for (int k = 0; k < 40; ++k) (void)filter(reading_at(0.05 * k, 0.0));
    filter.reset();
    CHECK(filter(reading_at(9.0, 40.0)).deviation == Cents{40.0});
}
