// SPDX-License-Identifier: MIT
#include "measure/shared_line.hpp"
#include "stats/quantiles.hpp"
#include "synth/random_source.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

std::vector<LinePoint> drawn(RandomSource& random, int count, double noise, double scatter)
{
    std::vector<LinePoint> points;
    for (int i = 0; i < count; ++i)
        points.push_back({.value_cents = 100.0 + noise * random.normal() + scatter * random.normal(),
                          .noise_cents2 = noise * noise,
                          .unevenness_cents2 = 0.05 * 0.05});
    return points;
}

void check_intervals(RandomSource& random, int count, double scatter, const ScatterPrior& prior)
{
    int held = 0;
    double width = 0.0, square = 0.0;
    constexpr int runs = 500;
    for (int i = 0; i < runs; ++i) {
        const auto fit = fit_shared_line(drawn(random, count, 0.02, scatter), 0.1, prior);
        const double half = stats::coverage_factor(0.95, fit.degrees_of_freedom) * fit.uncertainty_cents;
        held += std::abs(fit.value_cents - 100.0) <= half;
        width += half / runs, square += std::pow(fit.value_cents - 100.0, 2) / runs;
    }
    INFO(count << " points, scatter " << scatter << ": " << held << " of " << runs << ", width "
               << width / (1.96 * std::sqrt(square)));
    CHECK(held >= 0.91 * runs);                    // 95 %, less 4 standard deviations of 500 runs
    CHECK(width < 3.0 * 1.96 * std::sqrt(square)); // nor wider than three times what is needed
}

/// Seen on a real pluck: the third partial, with hum beside it, three cents off the first.
const std::vector<LinePoint> contradictory{
    {.value_cents = 100.0, .noise_cents2 = 0.020, .unevenness_cents2 = 0.01},
    {.value_cents = 97.0, .noise_cents2 = 0.021, .unevenness_cents2 = 0.01}};

void check_both_places_open(const std::vector<LinePoint>& points)
{
    const auto fit = fit_shared_line(points, 0.1, {.factor = 0.8, .log_sd = 0.8});
    const double half = stats::coverage_factor(0.95, fit.degrees_of_freedom) * fit.uncertainty_cents;
    INFO(fit.value_cents << " +- " << half);
    CHECK(std::abs(fit.value_cents - 100.0) < half + 0.1); // less than its noise's 0.14
    CHECK(std::abs(fit.value_cents - 97.0) < half + 0.1);  // the same
    CHECK(half < 3.5); // from one place to the other, and what each is unsure of
}

} // namespace

TEST_CASE("fit_shared_line: with noise alone it is the weighted mean and its standard error", "[reference]")
{
    // Inverse-variance weights: mean (1 / 0.01^2 * 100 + 1 / 0.02^2 * 100.02) / sum = 100.004, u = 0.0089443.
    const std::vector<LinePoint> points{
        {.value_cents = 100.0, .noise_cents2 = 1e-4, .unevenness_cents2 = 1e-12},
        {.value_cents = 100.02, .noise_cents2 = 4e-4, .unevenness_cents2 = 1e-12}};
    const auto fit = fit_shared_line(points, 0.1);
    CHECK(std::abs(fit.value_cents - 100.004) < 1e-6);                // rounding, iterated
    CHECK(std::abs(fit.uncertainty_cents / 0.0089443 - 1.0) < 0.021); // 1.96 over t of 60 degrees
}

TEST_CASE("fit_shared_line: intervals hold the truth in 95 of 100 whatever the scatter", "[property]")
{
    for (const int count : {3, 8, 20})
        for (const double scatter : {0.0, 0.03, 0.3}) {
            RandomSource random(static_cast<std::uint64_t>(count * 100 + 1000 * scatter));
            check_intervals(random, count, scatter, {});
        }
}

TEST_CASE("fit_shared_line: scatter far beyond what is expected is believed where the prior has tails",
          "[property]")
{
    // 20 and 300 times the unevenness, of which a fifth is expected.
    for (const double scatter : {1.0, 15.0}) {
        RandomSource random(7);
        check_intervals(random, 8, scatter, {.factor = 0.2, .log_sd = 0.5, .tail = 0.5});
    }
}

TEST_CASE("fit_shared_line: one bad point does not pull", "[property]")
{
    RandomSource random(5);
    auto points = drawn(random, 12, 0.02, 0.0);
    const double before = fit_shared_line(points, 0.1).value_cents;
    points[3].value_cents += 5.0;
    CHECK(std::abs(fit_shared_line(points, 0.1).value_cents - before) < 0.02); // one point's noise
}

TEST_CASE("fit_shared_line: two points that contradict each other leave both places open", "[regression]")
{
    check_both_places_open(contradictory);
}

TEST_CASE("fit_shared_line: so do two and a vague third", "[regression]")
{
    auto points = contradictory;
    points.push_back({.value_cents = 99.0, .noise_cents2 = 9.0, .unevenness_cents2 = 0.01});
    check_both_places_open(points);
}

TEST_CASE("fit_shared_line: the order of the points does not matter", "[property]")
{
    const auto one = fit_shared_line(contradictory, 0.1);
    const auto other = fit_shared_line(std::vector{contradictory[1], contradictory[0]}, 0.1);
    CHECK(std::abs(one.value_cents - other.value_cents) < 1e-6);                     // rounding, iterated
    CHECK(std::abs(one.uncertainty_cents / other.uncertainty_cents - 1.0) < 1e-6);   // the same
    CHECK(std::abs(one.degrees_of_freedom / other.degrees_of_freedom - 1.0) < 1e-6); // the same
}

TEST_CASE("fit_shared_line: adding to all values adds to the line", "[property]")
{
    RandomSource random(6);
    auto points = drawn(random, 7, 0.02, 0.1);
    for (std::size_t i = 0; i < points.size(); ++i) points[i].slope_cents = 0.1 * static_cast<double>(i * i);
    const auto before = fit_shared_line(points, 0.1);
    for (auto& point : points) point.value_cents += 12.5;
    const auto after = fit_shared_line(points, 0.1);
    CHECK(std::abs(after.value_cents - before.value_cents - 12.5) < 1e-6);            // rounding, iterated
    CHECK(std::abs(after.uncertainty_cents / before.uncertainty_cents - 1.0) < 1e-6); // the same
}
