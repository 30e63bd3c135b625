// SPDX-License-Identifier: MIT
#include "exchange/exact_decimal.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>

using namespace harpkeep;

TEST_CASE("exact_decimal: writes small units without zeros at the end", "[exchange]")
{
    CHECK(exact_decimal(51234, 6) == "0.051234");
    CHECK(exact_decimal(-51234, 6) == "-0.051234");
    CHECK(exact_decimal(1'500'000, 6) == "1.5");
    CHECK(exact_decimal(0, 6) == "0");
    CHECK(exact_decimal(100, 0) == "100");
    CHECK(exact_decimal(-1, 3) == "-0.001");
}

TEST_CASE("exact_decimal: any number comes back", "[exchange][property]")
{
    std::mt19937_64 random{1};
    for (int round = 0; round < 2000; ++round) {
        const auto number =
            static_cast<std::int64_t>(random() >> (random() % 64)) * (random() % 2 == 0 ? 1 : -1);
        const int decimals = static_cast<int>(random() % 13);
        REQUIRE(small_units_from_decimal(exact_decimal(number, decimals), decimals) == number);
    }
    CHECK(small_units_from_decimal(exact_decimal(std::numeric_limits<std::int64_t>::min(), 6), 6) ==
          std::numeric_limits<std::int64_t>::min());
}

TEST_CASE(
    "small_units_from_decimal: reads what other programs write, and refuses what it would have to round",
    "[exchange]")
{
    CHECK(small_units_from_decimal("1e-05", 9) == 10'000);
    CHECK(small_units_from_decimal("1.234e-4", 9) == 123'400);
    CHECK(small_units_from_decimal("0.031531000000000003", 6) == 31'531);
    CHECK_FALSE(small_units_from_decimal("0.0315310001", 6));
    CHECK(small_units_from_decimal("0.0500", 2) == 5);
    CHECK(small_units_from_decimal("+.5", 1) == 5);
    CHECK(small_units_from_decimal("7.", 1) == 70);
    for (const char* text : {"", "-", "+", ".", "0.055", "1,5", "1e-4", "0x1", "1.5 ", " 1", "1.-5", "--1",
                             "1e400", "99999999999999999999", "nan", "inf"})
        CHECK_FALSE(small_units_from_decimal(text, 2));
}

TEST_CASE("finite_number: infinity and nonsense are none", "[exchange]")
{
    CHECK(finite_number("-1.5e3") == -1500.0);
    CHECK(finite_number("+2") == 2.0);
    for (const char* text : {"", "inf", "-inf", "nan", "1e999", "1,5", "1 ", "0x10"})
        CHECK_FALSE(finite_number(text));
    std::mt19937_64 random{2};
    std::uniform_real_distribution<double> exponent{-300.0, 300.0};
    for (int round = 0; round < 1000; ++round) {
        const double value = std::pow(10.0, exponent(random));
        REQUIRE(finite_number(shortest_number(value)) == value);
    }
}
