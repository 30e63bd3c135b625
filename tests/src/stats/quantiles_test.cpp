// SPDX-License-Identifier: MIT
#include "stats/quantiles.hpp"

#include <catch2/catch.hpp>

#include <limits>

using namespace harpkeep::stats;

namespace {

struct CoverageRow {
    double degrees_of_freedom, at_95, at_99;
};

} // namespace

// JCGM 100:2008 table G.2 prints these rows to two decimals; the third is exact arithmetic.
TEST_CASE("coverage factor: rows of JCGM 100 table G.2", "[stats][reference]")
{
    const auto row =
        GENERATE(CoverageRow{2, 4.303, 9.925}, CoverageRow{3, 3.182, 5.841}, CoverageRow{4, 2.776, 4.604},
                 CoverageRow{5, 2.571, 4.032}, CoverageRow{9, 2.262, 3.250}, CoverageRow{10, 2.228, 3.169},
                 CoverageRow{20, 2.086, 2.845}, CoverageRow{50, 2.009, 2.678});
    CAPTURE(row.degrees_of_freedom);
    CHECK(coverage_factor(0.95, row.degrees_of_freedom) == Approx(row.at_95).margin(5e-4)); // last digit
    CHECK(coverage_factor(0.99, row.degrees_of_freedom) == Approx(row.at_99).margin(5e-4)); // last digit
}

TEST_CASE("coverage factor: without end of degrees of freedom it is the normal one", "[stats][reference]")
{
    const double many = std::numeric_limits<double>::infinity();
    CHECK(coverage_factor(0.95, many) == Approx(1.959964).margin(5e-7));  // last digit
    CHECK(student_quantile(0.95, many) == Approx(1.644854).margin(5e-7)); // last digit
}

TEST_CASE("quantiles: undo the probabilities", "[stats][property]")
{
    for (double p = 0.001; p < 1.0; p += 0.0237) {
        CHECK(normal_probability(normal_quantile(p)) == Approx(p).margin(1e-12)); // rounding
        for (double degrees : {1.0, 2.5, 16.64, 200.0, 1e9})
            CHECK(student_probability(student_quantile(p, degrees), degrees) ==
                  Approx(p).margin(1e-10)); // Boost's root finder stops near half of the digits twice over
    }
}

TEST_CASE("quantiles: symmetric about the middle", "[stats][property]")
{
    for (double p = 0.02; p < 0.5; p += 0.031) {
        CHECK(normal_quantile(p) == Approx(-normal_quantile(1.0 - p)).margin(1e-12));            // rounding
        CHECK(student_quantile(p, 4.2) == Approx(-student_quantile(1.0 - p, 4.2)).margin(1e-9)); // rounding
    }
}

// A chi-square value with two degrees of freedom is exponential: 1 - exp(-x / 2).
TEST_CASE("chi square: two degrees of freedom are an exponential", "[stats][twin]")
{
    for (double x : {0.1, 1.0, 3.0, 10.0})
        CHECK(chi_square_probability(x, 2.0) == Approx(1.0 - std::exp(-0.5 * x)).margin(1e-12)); // rounding
}
