// SPDX-License-Identifier: MIT
#include "stats/summary.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace harpkeep::stats;

namespace {

// NIST Statistical Reference Datasets, univariate: NumAcc2, NumAcc3, NumAcc4.
// Constructed data (Simon & Lesage 1989): x0, then 500 pairs (low, high); certified exactly: mean x0,
// sample standard deviation 0.1. https://www.itl.nist.gov/div898/strd/univ/homepage.html
struct NumAcc {
    const char* dataset;
    double x0, low, high;
    double tolerance; // rounding of the sum, or half an ulp of inputs that no double holds exactly
};

} // namespace

TEST_CASE("summarise: NIST StRD NumAcc certified values", "[stats][reference]")
{
    const auto [dataset, x0, low, high, tolerance] = GENERATE(
        NumAcc{"NumAcc2", 1.2, 1.1, 1.3, 1e-14}, NumAcc{"NumAcc3", 1000000.2, 1000000.1, 1000000.3, 5.9e-11},
        NumAcc{"NumAcc4", 10000000.2, 10000000.1, 10000000.3, 9.4e-10});
    CAPTURE(dataset);
    std::vector<double> sample{x0};
    for (int pair = 0; pair < 500; ++pair) sample.insert(sample.end(), {low, high});

    const auto summary = summarise(sample);

    REQUIRE(summary);
    CHECK(summary->count == 1001);
    // The mean of the large sets is rounded to an ulp of x0: 1.2e-10 and 1.9e-9.
    CHECK(summary->mean == Approx(x0).margin(2e-9));
    CHECK(summary->standard_deviation == Approx(0.1).margin(tolerance));
}

TEST_CASE("summarise: one value has no scatter", "[stats]")
{
    CHECK_FALSE(summarise(std::vector{3.0}));
    CHECK_FALSE(summarise(std::vector<double>{}));
}

TEST_CASE("weighted mean: equal trust is the plain mean", "[stats][twin]")
{
    const std::vector<double> values{1.0, 2.0, 4.0, 9.0};
    const auto mean = weighted_mean(values, std::vector(4, 0.5));
    CHECK(mean.value == Approx(4.0).epsilon(1e-12));        // rounding
    CHECK(mean.uncertainty == Approx(0.25).epsilon(1e-12)); // 0.5 / sqrt(4)
    const auto plain = summarise(values);
    CHECK(mean.birge_ratio == Approx(plain->standard_deviation / 0.5).epsilon(1e-12)); // rounding
}

TEST_CASE("weighted mean: a value of twice the trust counts four times", "[stats][property]")
{
    const auto mean = weighted_mean(std::vector{0.0, 10.0}, std::vector{1.0, 0.5});
    CHECK(mean.value == Approx(8.0).epsilon(1e-12));                        // rounding
    CHECK(mean.uncertainty == Approx(1.0 / std::sqrt(5.0)).epsilon(1e-12)); // rounding
}
