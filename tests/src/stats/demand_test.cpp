// SPDX-License-Identifier: MIT
#include "stats/demand.hpp"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/lognormal.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/uniform.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

using namespace harpkeep::stats;

namespace {

/// A continuous demand cut into counts of `unit`, so that stock * unit is its quantile to within a unit.
template <class Distribution>
CountDistribution in_units(const Distribution& demand, double unit, double highest)
{
    CountDistribution counts;
    double before = 0.0;
    for (double edge = 0.0; edge <= highest; edge += unit) {
        const double now = cdf(demand, edge);
        counts.push_back(now - before);
        before = now;
    }
    counts.push_back(1.0 - before);
    return counts;
}

} // namespace

// UMass, "Poisson probabilities r = 5 to 20" and its cumulative tables, four decimals.
TEST_CASE("poisson_counts: the published tables", "[stats][reference]")
{
    const auto five = poisson_counts(5.0);
    const std::array single{.0067, .0337, .0842, .1404, .1755, .1755};
    for (std::size_t n = 0; n < single.size(); ++n) CHECK(five[n] == Approx(single[n]).margin(5e-5));

    const auto [mean, table] =
        GENERATE(std::pair{0.5, std::vector{.6065, .9098, .9856}},
                 std::pair{1.0, std::vector{.3679, .7358, .9197, .9810, .9963}},
                 std::pair{2.0, std::vector{.1353, .4060, .6767, .8571, .9473, .9834}},
                 std::pair{3.0, std::vector{.0498, .1991, .4232, .6472, .8153, .9161}},
                 std::pair{5.0, std::vector{.0067, .0404, .1247, .2650, .4405, .6160}});
    CAPTURE(mean);
    const auto counts = poisson_counts(mean);
    for (std::size_t n = 0; n < table.size(); ++n)
        CHECK(chance_at_most(counts, static_cast<int>(n)) ==
              Approx(table[n]).margin(5e-5)); // half a last digit
}

// Own arithmetic on the same distribution.
TEST_CASE("smallest_stock: of Poisson needs at 90, 95 and 99 %", "[stats][reference]")
{
    struct Row {
        double mean;
        std::array<int, 3> stock;
    };
    const auto row = GENERATE(Row{0.1, {0, 1, 1}}, Row{0.5, {1, 2, 3}}, Row{1, {2, 3, 4}}, Row{2, {4, 5, 6}},
                              Row{3, {5, 6, 8}}, Row{5, {8, 9, 11}});
    CAPTURE(row.mean);
    const auto counts = poisson_counts(row.mean);
    CHECK(smallest_stock(counts, 0.90) == row.stock[0]);
    CHECK(smallest_stock(counts, 0.95) == row.stock[1]);
    CHECK(smallest_stock(counts, 0.99) == row.stock[2]);
}

// smartsolve, worked newsvendor example: cost 39, price 59, salvage 30; so short 20, over 9.
TEST_CASE("newsvendor: the worked example with uniform and normal need", "[stats][reference]")
{
    CHECK(critical_chance(20, 9) == Approx(.6897).margin(5e-5)); // four decimals
    constexpr double unit = 0.01;
    const double uniform =
        unit * newsvendor_stock(in_units(boost::math::uniform(350, 620), unit, 620), 20, 9);
    CHECK(uniform == Approx(536.207).margin(1.1 * unit)); // the unit; the page prints 536
    const double normal = unit * newsvendor_stock(in_units(boost::math::normal(485, 50), unit, 900), 20, 9);
    CHECK(normal == Approx(509.744).margin(1.1 * unit)); // the page takes z = 0.5 and prints 510
}

// Encyclopedia, "Newsvendor model": price 7, cost 5, so short 2, over 5. From memory, recomputed.
TEST_CASE("newsvendor: the encyclopedia's example", "[stats][reference]")
{
    constexpr double unit = 0.01;
    const auto stock = [](const CountDistribution& counts) { return unit * newsvendor_stock(counts, 2, 5); };
    CHECK(stock(in_units(boost::math::uniform(50, 80), unit, 80)) == Approx(58.571).margin(1.1 * unit));
    CHECK(stock(in_units(boost::math::normal(50, 20), unit, 250)) == Approx(38.681).margin(1.1 * unit));
    CHECK(stock(in_units(boost::math::lognormal(std::log(50), 0.2), unit, 250)) ==
          Approx(44.649).margin(1.1 * unit));
}

TEST_CASE("newsvendor: no other stock costs less", "[stats][property]")
{
    const auto counts = poisson_counts(3.7);
    const int best = newsvendor_stock(counts, 25.0, 4.0);
    for (int stock = 0; stock < 15; ++stock)
        CHECK(expected_cost(counts, best, 25.0, 4.0) <=
              expected_cost(counts, stock, 25.0, 4.0) + 1e-12); // rounding
}

TEST_CASE("poisson_binomial: agrees with adding up all outcomes", "[stats][twin]")
{
    const std::array chances{0.02, 0.9, 0.33, 0.5, 0.07, 0.61, 0.0, 1.0, 0.25};
    std::vector<double> expected(chances.size() + 1, 0.0);
    for (unsigned outcome = 0; outcome < 1U << chances.size(); ++outcome) {
        double chance = 1.0;
        std::size_t happened = 0;
        for (std::size_t i = 0; i < chances.size(); ++i) {
            const bool yes = (outcome >> i) & 1U;
            happened += yes;
            chance *= yes ? chances[i] : 1.0 - chances[i];
        }
        expected[happened] += chance;
    }
    const auto counts = poisson_binomial(chances);
    REQUIRE(counts.size() == expected.size());
    for (std::size_t n = 0; n < counts.size(); ++n)
        CHECK(counts[n] == Approx(expected[n]).margin(1e-14)); // rounding
}

TEST_CASE("poisson_binomial: equal chances give the binomial", "[stats][twin]")
{
    const std::vector chances(60, 0.13);
    const auto counts = poisson_binomial(chances);
    const boost::math::binomial binomial(60, 0.13);
    for (int n = 0; n <= 60; ++n)
        CHECK(counts[static_cast<std::size_t>(n)] == Approx(pdf(binomial, n)).margin(1e-14)); // rounding
}

TEST_CASE("poisson_binomial: order does not matter and the mean is the sum", "[stats][property]")
{
    std::vector chances{0.02, 0.9, 0.33, 0.5, 0.07};
    const auto counts = poisson_binomial(chances);
    CHECK(mean_count(counts) == Approx(std::accumulate(chances.begin(), chances.end(), 0.0)).epsilon(1e-14));
    std::reverse(chances.begin(), chances.end());
    const auto turned = poisson_binomial(chances);
    for (std::size_t n = 0; n < counts.size(); ++n) CHECK(turned[n] == Approx(counts[n]).margin(1e-16));
}

TEST_CASE("sum_of: two Poisson needs make one, and a cut keeps the tail", "[stats][property]")
{
    const auto sum = sum_of(poisson_counts(1.2), poisson_counts(2.3), 400);
    const auto direct = poisson_counts(3.5);
    for (std::size_t n = 0; n < 20; ++n) CHECK(sum[n] == Approx(direct[n]).margin(1e-14)); // rounding
    const auto cut = sum_of(poisson_counts(1.2), poisson_counts(2.3), 3);
    CHECK(cut.size() == 4);
    CHECK(cut[3] == Approx(1.0 - chance_at_most(direct, 2)).margin(1e-14));
}
