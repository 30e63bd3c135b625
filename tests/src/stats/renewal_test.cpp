// SPDX-License-Identifier: MIT
#include "stats/renewal.hpp"

#include "random_lives.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace harpkeep::stats;

namespace {

std::function<double(double)> weibull(double shape)
{
    return [shape](double age) { return -std::expm1(-std::pow(age, shape)); };
}

} // namespace

// Closed forms: exponential M = rate * t; Erlang-2 with rate l: M = l t / 2 - 1/4 + exp(-2 l t) / 4.
TEST_CASE("renewal_function: closed forms", "[stats][reference]")
{
    const double time = GENERATE(0.5, 1.0, 2.0, 5.0);
    CHECK(renewal_function([](double t) { return -std::expm1(-0.7 * t); }, time) ==
          Approx(0.7 * time).margin(1e-6)); // the rule's error
    const double l = 0.5;
    const auto erlang = [l](double t) { return 1.0 - std::exp(-l * t) * (1.0 + l * t); };
    CHECK(renewal_function(erlang, time) ==
          Approx(0.5 * l * time - 0.25 + 0.25 * std::exp(-2 * l * time)).margin(1e-6));
    // the same, printed to six decimals
    if (time == 1.0) CHECK(renewal_function(erlang, time) == Approx(.091970).margin(1e-6));
    if (time == 2.0) CHECK(renewal_function(erlang, time) == Approx(.283834).margin(1e-6));
    if (time == 5.0) CHECK(renewal_function(erlang, time) == Approx(1.001684).margin(1e-6));
}

// Scale 1; own arithmetic with SciPy, checked there by 2e5 simulated histories. R. Soland's published table
// (DTIC AD0675424, 1968) is scaled to mean 1 and could not be read.
TEST_CASE("renewal_function: Weibull values", "[stats][reference]")
{
    struct Row {
        double shape;
        double values[4]; // at 0.5, 1, 2, 3
    };
    const auto row =
        GENERATE(Row{2, {.23079, .75369, 1.89404, 3.02175}}, Row{3, {.11826, .67233, 1.80108, 2.92477}},
                 Row{1.7208, {.28072, .79671, 1.92279, 3.04429}});
    CAPTURE(row.shape);
    const double times[] = {0.5, 1, 2, 3};
    for (int i = 0; i < 4; ++i)
        CHECK(renewal_function(weibull(row.shape), times[i]) == Approx(row.values[i]).margin(1e-5));
}

// Smeitink & Dekker, IEEE Trans. Rel. 39, 71 (1990), abstract: for small t the renewal function is about F.
TEST_CASE("renewal_function: early on it is the distribution", "[stats][property]")
{
    const double early = renewal_function(weibull(2.0), 0.1);
    CHECK(early == Approx(weibull(2.0)(0.1)).epsilon(0.005)); // second failures add about F(t)^2 / 6
    CHECK(renewal_function(weibull(2.0), 0.0) == 0.0);
}

TEST_CASE("FailureCounts: accidents of constant rate are Poisson, whatever the age", "[stats][reference]")
{
    const FailureCounts counts{{1.0, 200.0}, 300.0};
    const auto poisson = poisson_counts(1.5);
    for (const double age : {0.0, 700.0}) {
        const auto found = counts.starting_at(age);
        for (std::size_t n = 0; n < 8; ++n)
            CHECK(found[n] == Approx(poisson[n]).margin(1e-4)); // the grid of 48
    }
}

TEST_CASE("FailureCounts: their mean is the renewal function", "[stats][twin]")
{
    const auto [shape, time] = GENERATE(std::pair{2.0, 1.0}, std::pair{1.7208, 3.0}, std::pair{1.3, 0.3});
    CHECK(mean_count(FailureCounts{{shape, 1.0}, time}.starting_at(0.0)) ==
          Approx(renewal_function(weibull(shape), time)).epsilon(2e-3)); // the grid of 48 steps
    CHECK(mean_count(FailureCounts{{shape, 1.0}, time, 800}.starting_at(0.0)) ==
          Approx(renewal_function(weibull(shape), time)).epsilon(2e-5)); // and of 800
}

TEST_CASE("FailureCounts: agree with simulated histories from an age on", "[stats][twin]")
{
    const WeibullLife life{1.8, 400.0};
    const double age = 300.0, duration = 500.0;
    std::mt19937_64 random{31};
    constexpr int histories = 200000;
    const auto draw = [&](double from) { // a remaining life, given that it lasted until `from`
        const double hazard =
            std::pow(from / life.scale, life.shape) - std::log(random_lives::uniform(random));
        return life.scale * std::pow(hazard, 1.0 / life.shape) - from;
    };
    std::vector<double> seen(30, 0.0);
    for (int i = 0; i < histories; ++i) {
        std::size_t failures = 0;
        for (double t = draw(age); t <= duration; t += draw(0.0)) ++failures;
        seen[failures] += 1.0 / histories;
    }
    const auto counts = FailureCounts{life, duration}.starting_at(age);
    for (std::size_t n = 0; n < 5; ++n)
        CHECK(counts[n] == Approx(seen[n]).margin(0.0045)); // four standard errors of the simulation
}

TEST_CASE("FailureCounts: are distributions and grow with age when things wear out", "[stats][property]")
{
    const FailureCounts counts{{2.2, 500.0}, 365.0};
    double before = 0.0;
    for (const double age : {0.0, 200.0, 400.0, 800.0}) {
        const auto found = counts.starting_at(age);
        CHECK(std::accumulate(found.begin(), found.end(), 0.0) == Approx(1.0).epsilon(1e-12)); // rounding
        CHECK(mean_count(found) > before);
        before = mean_count(found);
    }
    CHECK(counts.starting_at(300.0)[0] == Approx(1.0 - weibull_failure_within({2.2, 500.0}, 300.0, 365.0))
                                              .epsilon(1e-12)); // exact first failure
}
