// SPDX-License-Identifier: MIT
#include "stats/kaplan_meier.hpp"

#include "published_lives.hpp"
#include "random_lives.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep::stats;

namespace {

constexpr double last_digit = 5e-7; // half of the sixth decimal, as listed

struct Row {
    double time, survival;
};

void check_curve(const SurvivalCurve& curve, std::initializer_list<Row> rows)
{
    REQUIRE(curve.steps.size() == rows.size());
    auto step = curve.steps.begin();
    for (const auto& row : rows) {
        CAPTURE(row.time);
        CHECK(step->time == row.time);
        CHECK(step->survival == Approx(row.survival).margin(last_digit));
        ++step;
    }
}

} // namespace

// 6-MP arm, R survival 3.5-3; the same figures are in the textbooks on survival analysis.
TEST_CASE("kaplan_meier: remission under 6-MP with Greenwood's errors", "[stats][reference]")
{
    const auto curve = kaplan_meier(published::mercaptopurine());
    check_curve(curve, {{6, .857143},
                        {7, .806723},
                        {10, .752941},
                        {13, .690196},
                        {16, .627451},
                        {22, .537815},
                        {23, .448179}});
    const double errors[] = {.076360, .086935, .096350, .106815, .114054, .128234, .134592};
    for (std::size_t i = 0; i < curve.steps.size(); ++i)
        CHECK(greenwood_error(curve.steps[i]) == Approx(errors[i]).margin(last_digit));
}

TEST_CASE("kaplan_meier: 6-MP median and limits", "[stats][reference]")
{
    const auto curve = kaplan_meier(published::mercaptopurine());
    const auto median = life_quantile(curve, 0.5, SurvivalScale::log);
    REQUIRE(median);
    CHECK(median->time == 23.0);
    CHECK(median->lower == 16.0);
    CHECK_FALSE(median->upper); // R prints NA
    const auto at_23 = survival_limits(curve.steps.back(), SurvivalScale::log_log);
    CHECK(at_23->lower == Approx(.18805).margin(5e-6)); // five decimals
    CHECK(at_23->upper == Approx(.68014).margin(5e-6));
    const auto at_6 = survival_limits(curve.steps.front(), SurvivalScale::log_log);
    CHECK(at_6->lower == Approx(.61972).margin(5e-6));
    CHECK(at_6->upper == Approx(.95155).margin(5e-6));
}

TEST_CASE("kaplan_meier: the placebo arm falls to 0", "[stats][reference]")
{
    const auto curve = kaplan_meier(published::placebo());
    check_curve(curve, {{1, .904762},
                        {2, .809524},
                        {3, .761905},
                        {4, .666667},
                        {5, .571429},
                        {8, .380952},
                        {11, .285714},
                        {12, .190476},
                        {15, .142857},
                        {17, .095238},
                        {22, .047619},
                        {23, 0.0}});
    CHECK(greenwood_error(curve.steps.back()) == 0.0);
    CHECK_FALSE(survival_limits(curve.steps.back()));
    CHECK_FALSE(curve.ran_empty_at); // it ended, nobody came after
}

// NIST/SEMATECH e-Handbook 8.2.1.5: the page gives the first three as products; the rest follow its rule.
TEST_CASE("kaplan_meier: NIST units taken off between failures", "[stats][reference]")
{
    check_curve(kaplan_meier(published::nist_kaplan_meier()), {{10, 19. / 20},
                                                               {32, 19. / 20 * 18 / 19},
                                                               {56, 19. / 20 * 18 / 19 * 16 / 17},
                                                               {98, .794118},
                                                               {122, .737395},
                                                               {181, .670359}});
}

// Meeker & Escobar, chapter 3, heat exchanger of plant 1: of 100 tubes 1, 2 and 2 cracked in three years.
TEST_CASE("kaplan_meier: cracked tubes of Meeker & Escobar", "[stats][reference]")
{
    auto tubes = published::lives({1, 2, 2, 3, 3}, {});
    for (int i = 0; i < 95; ++i) tubes.push_back({0.0, 3.0, false});
    check_curve(kaplan_meier(tubes), {{1, 0.99}, {2, 0.97}, {3, 0.95}});
}

TEST_CASE("kaplan_meier: late entries count from when they are watched", "[stats]")
{
    // At 5 only the first is watched, at 8 the first two of three; who enters at 8 is not yet at risk at 8.
    const std::vector<LifeObservation> lives{{0, 10, false}, {6, 8, true}, {8, 12, true}, {0, 5, true}};
    const auto curve = kaplan_meier(lives);
    REQUIRE(curve.steps.size() == 3);
    CHECK(curve.steps[0].at_risk == 2);
    CHECK(curve.steps[1].at_risk == 2);
    CHECK(curve.steps[2].at_risk == 1);
    CHECK(curve.steps[2].survival == 0.0);
}

TEST_CASE("kaplan_meier: says when late entries left the start empty", "[stats]")
{
    const auto curve = kaplan_meier(std::vector<LifeObservation>{{0, 2, true}, {3, 9, true}, {3, 10, false}});
    CHECK(curve.ran_empty_at == 2.0);
}

TEST_CASE("kaplan_meier: nothing failed, nothing watched", "[stats]")
{
    CHECK(kaplan_meier({}).steps.empty());
    const auto sound = kaplan_meier(published::lives({}, {3, 4}));
    CHECK(survival_at(sound, 3.5) == 1.0);
    CHECK_FALSE(survival_at(sound, 4.5));
    CHECK_FALSE(life_quantile(sound, 0.5));
}

TEST_CASE("kaplan_meier: an exact half gives the middle of the level stretch", "[stats]")
{
    // the usual convention for a curve that lies on one half, also that of R
    const auto median = life_quantile(kaplan_meier(published::lives({1, 2, 3, 4}, {})), 0.5);
    CHECK(median->time == 2.5);
}

TEST_CASE("kaplan_meier: order does not matter, a longer clock only stretches", "[stats][property]")
{
    std::mt19937_64 random{11};
    auto lives = random_lives::draw(random, {1.7, 400}, 80, {.late_share = 0.4});
    const auto curve = kaplan_meier(lives);
    std::reverse(lives.begin(), lives.end());
    std::rotate(lives.begin(), lives.begin() + 17, lives.end());
    const auto turned = kaplan_meier(lives);
    for (auto& life : lives) life = {life.entry * 4, life.exit * 4, life.failed}; // a power of two is exact
    const auto stretched = kaplan_meier(lives);
    REQUIRE(turned.steps.size() == curve.steps.size());
    REQUIRE(stretched.steps.size() == curve.steps.size());
    for (std::size_t i = 0; i < curve.steps.size(); ++i) {
        CHECK(turned.steps[i].survival == curve.steps[i].survival);
        CHECK(stretched.steps[i].survival == curve.steps[i].survival);
        CHECK(stretched.steps[i].time == 4 * curve.steps[i].time);
    }
}

TEST_CASE("kaplan_meier: living on instead of failing never lowers the curve", "[stats][property]")
{
    std::mt19937_64 random{12};
    const auto lives = random_lives::draw(random, {1.3, 400}, 60, {.late_share = 0.3});
    const auto curve = kaplan_meier(lives);
    for (std::size_t changed = 0; changed < lives.size(); changed += 7) {
        auto kinder = lives;
        kinder[changed].failed = false;
        const auto raised = kaplan_meier(kinder);
        for (const auto& step : curve.steps)
            CHECK(survival_at(raised, step.time).value() >= step.survival - 1e-12); // rounding
    }
}
