// SPDX-License-Identifier: MIT
#include "stats/regression.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <vector>

using namespace harpkeep::stats;

namespace {

std::vector<RegressionRow> line_rows(const std::array<double, 11>& x, const std::array<double, 11>& y)
{
    std::vector<RegressionRow> rows;
    for (std::size_t i = 0; i < x.size(); ++i) rows.push_back({{1.0, x[i]}, y[i]});
    return rows;
}

// F. J. Anscombe, "Graphs in Statistical Analysis", Amer. Statist. 27 (1973) 17: data from memory; the paper
// gives for each set: intercept 3.0, slope 0.5, standard error of the slope 0.118.
constexpr std::array<double, 11> x123{10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5};
constexpr std::array<double, 11> x4{8, 8, 8, 8, 8, 8, 8, 19, 8, 8, 8};
constexpr std::array<double, 11> set_1{8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68};
constexpr std::array<double, 11> set_2{9.14, 8.14, 8.74, 8.77, 9.26, 8.10, 6.13, 3.10, 9.13, 7.26, 4.74};
constexpr std::array<double, 11> set_3{7.46, 6.77, 12.74, 7.11, 7.81, 8.84, 6.08, 5.39, 8.15, 6.42, 5.73};
constexpr std::array<double, 11> set_4{6.58, 5.76, 7.71, 8.84, 8.47, 7.04, 5.25, 12.50, 5.56, 7.91, 6.89};

} // namespace

TEST_CASE("weighted regression: Anscombe's four sets have one line", "[stats][reference]")
{
    for (const auto& rows :
         {line_rows(x123, set_1), line_rows(x123, set_2), line_rows(x123, set_3), line_rows(x4, set_4)}) {
        const auto fit = weighted_regression(rows);
        REQUIRE(fit);
        CHECK(fit->coefficients[0] == Approx(3.0).margin(0.005));     // sets agree to two decimals only
        CHECK(fit->coefficients[1] == Approx(0.5).margin(0.0005));    // sets agree to three decimals only
        CHECK(fit->uncertainties[1] == Approx(0.118).margin(0.0005)); // last digit of the paper
        CHECK(fit->degrees_of_freedom == 9.0);
    }
}

TEST_CASE("robust regression: Anscombe's third set is a line and one value astray", "[stats][reference]")
{
    const auto fit = robust_regression(line_rows(x123, set_3));
    REQUIRE(fit);
    // The ten others lie on y = 4.0 + 0.346 x within 0.01.
    CHECK(fit->coefficients[0] == Approx(4.0).margin(0.02));
    CHECK(fit->coefficients[1] == Approx(0.346).margin(0.002));
    CHECK(fit->robust_weights[2] == 0.0);
}

TEST_CASE("weighted regression: a row of weight two is the row twice", "[stats][property]")
{
    auto rows = line_rows(x123, set_1);
    auto doubled = rows;
    rows[4].weight = 2.0;
    doubled.push_back(doubled[4]);
    const auto a = weighted_regression(rows);
    const auto b = weighted_regression(doubled);
    REQUIRE((a && b));
    CHECK(a->coefficients[0] == Approx(b->coefficients[0]).epsilon(1e-10)); // rounding
    CHECK(a->coefficients[1] == Approx(b->coefficients[1]).epsilon(1e-10)); // rounding
}

TEST_CASE("weighted regression: what the rows do not fix gives no answer", "[stats]")
{
    CHECK_FALSE(weighted_regression(std::vector<RegressionRow>{{{1.0, 2.0}, 3.0}, {{1.0, 2.0}, 4.0}}));
    CHECK_FALSE(weighted_regression(
        std::vector<RegressionRow>{{{1.0, 2.0}, 3.0}, {{1.0, 2.0}, 4.0}, {{1.0, 2.0}, 5.0}}));
}
