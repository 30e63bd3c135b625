// SPDX-License-Identifier: MIT
#include "units/interval.hpp"
#include "units/quantity.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

template <class A, class B>
concept addable = requires(A a, B b)
{
    a + b;
};
template <class A, class B>
concept multipliable = requires(A a, B b)
{
    a* b;
};

TEST_CASE("quantity: meaningless operations do not compile", "[units]")
{
    STATIC_REQUIRE(addable<Cents, Cents>);
    STATIC_REQUIRE_FALSE(addable<Hertz, Cents>);
    STATIC_REQUIRE_FALSE(addable<Hertz, double>);
    STATIC_REQUIRE_FALSE(multipliable<Hertz, Hertz>);
    STATIC_REQUIRE_FALSE(std::is_convertible_v<double, Hertz>);
}

// Values: exact arithmetic on the definition; 415 Hz is not exactly a semitone under 440 Hz.
TEST_CASE("interval: reference pitches against 440 Hz", "[units][reference]")
{
    const auto [hertz, cents] =
        GENERATE(std::pair{415.0, -101.2706}, std::pair{430.0, -39.8002}, std::pair{432.0, -31.7667},
                 std::pair{435.0, -19.7857}, std::pair{442.0, 7.8514}, std::pair{443.0, 11.7638},
                 std::pair{466.0, 99.3917});
    CHECK(interval(440.0_Hz, Hertz{hertz}).value() ==
          Approx(cents).margin(5e-5)); // half of the last digit given
}

TEST_CASE("interval: raised undoes interval", "[units][property]")
{
    for (double cents = -2400.0; cents <= 2400.0; cents += 37.3)
        CHECK(interval(261.6_Hz, raised(261.6_Hz, Cents{cents})).value() ==
              Approx(cents).margin(1e-9)); // rounding
}
