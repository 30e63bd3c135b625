// SPDX-License-Identifier: MIT
#include "reason/visit_comparison.hpp"
#include "tests/support/planted_harp.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using test::Dice;

namespace {

std::vector<StepError> check_of(const std::vector<double>& truth, Dice& dice)
{
    std::vector<StepError> steps;
    for (std::size_t i = 0; i < truth.size(); ++i)
        steps.push_back({place_from_diatonic_index(9 + static_cast<int>(i)), Step::lower,
                         truth[i] + std::hypot(0.3, 0.25) * dice.normal(), 0.25, 20.0});
    return steps;
}

} // namespace

// Two values of equal trust: nearer by rotation to (a + b, a - b), which are independent.
TEST_CASE("visit: chance to be the smaller, in closed form for equal trust", "[reason][twin]")
{
    const auto phi = [](double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); };
    for (const double a : {-3.0, -0.4, 0.0, 1.1})
        for (const double b : {-2.0, 0.3, 4.0}) {
            const double root = std::sqrt(2.0) * 0.7;
            const double sum = phi((a + b) / root);
            const double difference = phi((b - a) / root);
            // |a| < |b| when a + b and b - a have the same sign.
            const double expected = sum * difference + (1.0 - sum) * (1.0 - difference);
            CHECK(probability_smaller_in_size({a, 0.7}, {b, 0.7}) ==
                  Approx(expected).margin(1e-8)); // accuracy of the quadrature
        }
}

TEST_CASE("visit: both chances add to one", "[reason][property]")
{
    const Measured a{1.2, 0.3};
    const Measured b{-0.9, 0.8};
    CHECK(probability_smaller_in_size(a, b) + probability_smaller_in_size(b, a) ==
          Approx(1.0).margin(1e-8)); // accuracy of the quadrature
}

TEST_CASE("visit: what was set right is improved, what was set wrong is worse", "[reason]")
{
    Dice dice(1);
    std::vector<double> before(40, 0.5);
    std::vector<double> after(40, 0.5);
    for (std::size_t i = 0; i < 10; ++i) before[i] = 7.0; // set right
    after[30] = -6.0;                                     // set wrong
    const auto comparison = compare_visit(check_of(before, dice), check_of(after, dice), {});
    CHECK(comparison.improved == 10);
    CHECK(comparison.worse == 1);
    CHECK(comparison.out_before == 10);
    CHECK(comparison.out_after == 1);
    CHECK(comparison.steps.back().place == place_from_diatonic_index(39));
    CHECK(comparison.steps.back().change == VisitChange::worse);
    CHECK(comparison.steps.front().change == VisitChange::improved);
    CHECK(comparison.typical_after_cents < comparison.typical_before_cents);
}

TEST_CASE("visit: two checks of an untouched harp show no change", "[reason][property]")
{
    Dice dice(2);
    int shown = 0;
    for (int harp = 0; harp < 25; ++harp) {
        std::vector<double> truth;
        for (int i = 0; i < 40; ++i) truth.push_back(2.0 * dice.normal());
        const auto comparison = compare_visit(check_of(truth, dice), check_of(truth, dice), {});
        shown += comparison.improved + comparison.worse;
    }
    CHECK(shown <= 4); // at most one harp in twenty may show something by chance
}

TEST_CASE("visit: steps measured once only are counted, not compared", "[reason]")
{
    Dice dice(3);
    const auto before = check_of(std::vector(5, 1.0), dice);
    auto after = check_of(std::vector(5, 1.0), dice);
    after.pop_back();
    after.push_back({*place_from_harp_name("1A"), Step::upper, 1.0, 0.3, 8.0});
    const auto comparison = compare_visit(before, after, {});
    CHECK(comparison.steps.size() == 4);
    CHECK(comparison.only_before == 1);
    CHECK(comparison.only_after == 1);
}
