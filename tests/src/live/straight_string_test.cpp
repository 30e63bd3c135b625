// SPDX-License-Identifier: MIT
#include "live/straight_string.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("straight string: flat bows one way, sharp the other, alike", "[live][property]")
{
    const double cents = GENERATE(0.2, 1.0, 7.0, 33.0, 400.0);
    CHECK(string_bow(Cents{-cents}) == -string_bow(Cents{cents}));
    CHECK(string_bow(Cents{cents}) > 0.0);
    CHECK(string_bow(Cents{cents}) <= 1.0);
}

TEST_CASE("straight string: the last cents are drawn largest", "[live][property]")
{
    const double first = string_bow(Cents{1.0}) - string_bow(Cents{0.0});
    const double later = string_bow(Cents{31.0}) - string_bow(Cents{30.0});
    CHECK(first > 10.0 * later);
    CHECK(string_bow(Cents{50.0}) == Approx(1.0));
}

TEST_CASE("straight string: its ends stay where they are", "[live]")
{
    CHECK(bow_shape(0.0) == Approx(0.0).margin(1e-15));
    CHECK(bow_shape(1.0) == Approx(0.0).margin(1e-15));
    CHECK(bow_shape(0.5) == 1.0);
}

TEST_CASE("straight string: what is not known well is drawn wide", "[live]")
{
    const auto sure = straight_string({Cents{3.0}, Cents{0.1}}, Cents{1.0});
    const auto unsure = straight_string({Cents{3.0}, Cents{2.0}}, Cents{1.0});
    CHECK(unsure.blur > 10.0 * sure.blur);
    CHECK_FALSE(sure.straight);
    CHECK(straight_string({Cents{-0.9}, Cents{0.1}}, Cents{1.0}).straight);
}
