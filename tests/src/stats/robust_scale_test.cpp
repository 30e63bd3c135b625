// SPDX-License-Identifier: MIT
#include "stats/quantiles.hpp"
#include "stats/robust_scale.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace harpkeep::stats;

namespace {

/// Values that follow the normal distribution as evenly as can be.
std::vector<double> even_normal_values(int count, double mean, double deviation)
{
    std::vector<double> values;
    for (int i = 0; i < count; ++i) values.push_back(mean + deviation * normal_quantile((i + 0.5) / count));
    return values;
}

} // namespace

TEST_CASE("median: middle of an odd count, mean of two for an even one", "[stats][reference]")
{
    CHECK(median(std::vector{5.0, 1.0, 9.0}) == 5.0);
    CHECK(median(std::vector{4.0, 1.0, 2.0, 9.0}) == 3.0);
    CHECK(median(std::vector{7.0}) == 7.0);
}

TEST_CASE("robust scale: is the standard deviation of normal values", "[stats][twin]")
{
    // The even grid of 2,001 values has its quartiles within 1e-3 of the true ones.
    CHECK(robust_scale(even_normal_values(2001, 3.0, 0.8)) == Approx(0.8).epsilon(1e-3));
}

TEST_CASE("robust scale: four values in ten gone astray leave it bounded", "[stats][property]")
{
    auto values = even_normal_values(100, 0.0, 1.0);
    for (int i = 0; i < 40; ++i) values[static_cast<std::size_t>(2 * i)] = 1e6;
    // The median becomes the 5/6 quantile of the rest, 0.97, and half of all lie within 2.1 of it.
    CHECK(robust_scale(values) < 1.4826 * 2.2);
}

TEST_CASE("robust scale: follows shift and factor", "[stats][property]")
{
    const std::vector<double> values{0.3, -1.2, 2.5, 0.9, -0.1, 0.4};
    std::vector<double> moved;
    for (const double value : values) moved.push_back(100.0 - 3.0 * value);
    CHECK(robust_scale(moved) == Approx(3.0 * robust_scale(values)).epsilon(1e-12)); // rounding
    CHECK(median(moved) == Approx(100.0 - 3.0 * median(values)).epsilon(1e-12));     // rounding
}

TEST_CASE("sample quantile: ends and straight lines between", "[stats][reference]")
{
    const std::vector<double> values{40.0, 10.0, 20.0, 30.0};
    CHECK(sample_quantile(values, 0.0) == 10.0);
    CHECK(sample_quantile(values, 1.0) == 40.0);
    CHECK(sample_quantile(values, 0.25) == Approx(17.5).epsilon(1e-12)); // definition 7; rounding
}
