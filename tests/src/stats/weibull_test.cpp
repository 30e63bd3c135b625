// SPDX-License-Identifier: MIT
#include "stats/weibull.hpp"

#include "published_lives.hpp"
#include "random_lives.hpp"
#include "stats/exponential.hpp"
#include "stats/lognormal.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep::stats;

namespace {

constexpr double published_digits = 1e-5; // relative, as agreed for these tables

/// The likelihood written out naively, one density or survival for each life.
double naive_log_likelihood(const std::vector<LifeObservation>& lives, double shape, double scale)
{
    double total = 0.0;
    for (const auto& life : lives) {
        const double z = life.exit / scale;
        if (life.failed) total += std::log(shape / scale * std::pow(z, shape - 1.0));
        total -= std::pow(z, shape) - std::pow(life.entry / scale, shape);
    }
    return total;
}

/// Its highest point by a grid that shrinks around the best node: nothing in common with the fit.
WeibullLife grid_search(const std::vector<LifeObservation>& lives, WeibullLife start)
{
    double step = 0.5;
    double x = std::log(start.shape), y = std::log(start.scale);
    for (int round = 0; round < 60; ++round, step *= 0.7) {
        double best = -1e300, best_x = x, best_y = y;
        for (int i = -3; i <= 3; ++i)
            for (int j = -3; j <= 3; ++j) {
                const double value =
                    naive_log_likelihood(lives, std::exp(x + i * step), std::exp(y + j * step));
                if (value > best) {
                    best = value;
                    best_x = x + i * step;
                    best_y = y + j * step;
                }
            }
        x = best_x;
        y = best_y;
    }
    return {std::exp(x), std::exp(y)};
}

} // namespace

// NIST/SEMATECH e-Handbook 8.4.1.3: eta 606.5280, beta 1.7208, log-likelihood -75.135 (the page prints it
// without its sign), AIC 154.27 and 154.39 for the lognormal, mean 540.737, standard deviation 323.806. More
// digits from R survival 3.5-3: 606.527558, 1.72079726, -75.1346182, 154.2692, 154.3925.
TEST_CASE("fit_weibull: NIST example with ten censored units", "[stats][reference]")
{
    const auto fit = fit_weibull(published::nist_weibull());
    REQUIRE(fit);
    CHECK(fit->life.scale == Approx(606.527558).epsilon(published_digits));
    CHECK(fit->life.shape == Approx(1.72079726).epsilon(published_digits));
    CHECK(fit->log_likelihood == Approx(-75.1346182).epsilon(published_digits));
    CHECK(akaike(fit->log_likelihood, 2) == Approx(154.2692).margin(5e-5)); // last digit
    CHECK(weibull_mean(fit->life) == Approx(540.737).epsilon(published_digits));
    CHECK(weibull_standard_deviation(fit->life) == Approx(323.806).epsilon(published_digits));
    const auto lognormal = fit_lognormal(published::nist_weibull());
    REQUIRE(lognormal);
    CHECK(akaike(lognormal->log_likelihood, 2) == Approx(154.3925).margin(5e-5)); // last digit
}

// Same fit: P(fail in the next 100 h | age). Own arithmetic on the published fit, six decimals.
TEST_CASE("weibull_failure_within: conditional chances of the NIST example", "[stats][reference]")
{
    const auto fit = fit_weibull(published::nist_weibull());
    const auto [age, chance] =
        GENERATE(std::pair{0., .043969}, std::pair{300., .173662}, std::pair{500., .232274});
    CHECK(weibull_failure_within(fit->life, age, 100.0) == Approx(chance).margin(1e-6)); // last digit
}

// 6-MP arm, R survival 3.5-3 (survreg).
TEST_CASE("fit_weibull: 6-MP with standard errors", "[stats][reference]")
{
    const auto fit = fit_weibull(published::mercaptopurine());
    REQUIRE(fit);
    CHECK(fit->life.shape == Approx(1.0 / .7386973).epsilon(published_digits));
    CHECK(fit->life.scale == Approx(33.7651).epsilon(published_digits));
    CHECK(fit->log_likelihood == Approx(-41.65868).epsilon(published_digits));
    CHECK(fit->log_scale_error == Approx(.27336892).epsilon(published_digits));
    CHECK(fit->log_shape_error == Approx(.27839788).epsilon(published_digits)); // of log sigma = -log shape
}

TEST_CASE("fit_exponential: 6-MP with exact limits", "[stats][reference]")
{
    const auto fit = fit_exponential(published::mercaptopurine());
    REQUIRE(fit);
    CHECK(fit->evidence.exposure == 359.0);
    CHECK(fit->rate == Approx(9.0 / 359.0).epsilon(1e-15)); // exact
    CHECK(1.0 / fit->rate == Approx(39.8889).margin(5e-5)); // last digit
    CHECK(fit->log_likelihood == Approx(-42.17488).epsilon(published_digits));
    CHECK(fit->rate_limits.lower == Approx(.011463).margin(5e-7)); // last digit
    CHECK(fit->rate_limits.upper == Approx(.047590).margin(5e-7));
}

TEST_CASE("fit_lognormal: 6-MP", "[stats][reference]")
{
    const auto fit = fit_lognormal(published::mercaptopurine());
    REQUIRE(fit);
    CHECK(fit->log_mean == Approx(3.203068).epsilon(published_digits));
    CHECK(fit->log_sigma == Approx(.978725).epsilon(published_digits));
    CHECK(fit->log_likelihood == Approx(-40.68016).epsilon(published_digits));
}

// Both arms, R survival 3.5-3: coefficient of control -1.26733459, sigma .7321944, log-likelihood -106.6; as
// proportional hazards the log ratio is 1.7309.
TEST_CASE("fit_weibull_common_shape: 6-MP against placebo", "[stats][reference]")
{
    const auto fit = fit_weibull_common_shape(std::vector{published::mercaptopurine(), published::placebo()});
    REQUIRE(fit);
    CHECK(1.0 / fit->shape == Approx(.7321944).epsilon(published_digits));
    const double log_ratio = std::log(fit->scales[1] / fit->scales[0]);
    CHECK(log_ratio == Approx(-1.26733459).epsilon(published_digits));
    CHECK(-log_ratio * fit->shape == Approx(1.7309).margin(5e-5)); // last digit
    CHECK(fit->log_likelihood == Approx(-106.6).margin(0.05));     // last digit
}

TEST_CASE("fit_weibull: late entry agrees with a search of the naive likelihood", "[stats][twin]")
{
    const auto seed = GENERATE(1U, 2U, 3U, 4U);
    std::mt19937_64 random{seed};
    const WeibullLife truth{0.8 + 0.5 * seed, 500};
    const auto lives = random_lives::draw(random, truth, 60, {.late_share = 0.5, .latest_entry = 0.8});
    const auto fit = fit_weibull(lives);
    REQUIRE(fit);
    const auto twin = grid_search(lives, truth);
    CHECK(fit->life.shape ==
          Approx(twin.shape).epsilon(1e-6)); // flatness of the top: sqrt(1e-13) and the grid
    CHECK(fit->life.scale == Approx(twin.scale).epsilon(1e-6));
    CHECK(fit->log_likelihood ==
          Approx(naive_log_likelihood(lives, twin.shape, twin.scale)).epsilon(1e-12)); // rounding
}

TEST_CASE("weibull limits: the likelihood there has fallen by half of 3.8415", "[stats][twin]")
{
    std::mt19937_64 random{5};
    const auto lives = random_lives::draw(random, {1.6, 500}, 40, {.late_share = 0.4});
    const auto fit = fit_weibull(lives).value();
    // the scale is fixed at each limit and the shape searched naively
    const auto limits = weibull_quantile_limits(lives, fit, 1.0 - std::exp(-1.0));
    CHECK(limits.lower < fit.life.scale);
    CHECK(fit.life.scale < limits.upper);
    for (const double scale : {limits.lower, limits.upper}) {
        double best = -1e300;
        for (double log_shape = -1.5; log_shape < 2.0; log_shape += 1e-4)
            best = std::max(best, naive_log_likelihood(lives, std::exp(log_shape), scale));
        CHECK(fit.log_likelihood - best == Approx(0.5 * 3.841459).margin(1e-5)); // the search's step squared
    }
    const auto shapes = weibull_shape_limits(lives, fit);
    for (const double shape : {shapes.lower, shapes.upper}) {
        double best = -1e300;
        for (double log_scale = 5.0; log_scale < 8.0; log_scale += 1e-4)
            best = std::max(best, naive_log_likelihood(lives, shape, std::exp(log_scale)));
        CHECK(fit.log_likelihood - best == Approx(0.5 * 3.841459).margin(1e-5));
    }
}

TEST_CASE("weibull limits: of a new one's chance match those of the quantile", "[stats][property]")
{
    // P(fail by t) has the limit p exactly where the p-quantile has the limit t.
    const auto lives = published::nist_weibull();
    const auto fit = fit_weibull(lives).value();
    const auto chance = weibull_failure_limits(lives, fit, 0.0, 300.0);
    CHECK(weibull_quantile_limits(lives, fit, chance.lower).upper ==
          Approx(300.0).epsilon(1e-6)); // root finding
    CHECK(weibull_quantile_limits(lives, fit, chance.upper).lower == Approx(300.0).epsilon(1e-6));
}

TEST_CASE("fit_weibull: order and clock do not matter", "[stats][property]")
{
    std::mt19937_64 random{6};
    auto lives = random_lives::draw(random, {1.4, 700}, 50, {.late_share = 0.4});
    const auto fit = fit_weibull(lives).value();
    const auto limits = weibull_quantile_limits(lives, fit, 0.5);
    std::rotate(lives.begin(), lives.begin() + 13, lives.end());
    for (auto& life : lives) life = {life.entry / 365.25, life.exit / 365.25, life.failed};
    const auto years = fit_weibull(lives).value();
    CHECK(years.life.shape == Approx(fit.life.shape).epsilon(1e-9)); // rounding of the sums
    CHECK(years.life.scale * 365.25 == Approx(fit.life.scale).epsilon(1e-9));
    CHECK(years.log_likelihood - fit.evidence.failures * std::log(365.25) ==
          Approx(fit.log_likelihood).epsilon(1e-12)); // densities stretch with the clock
    CHECK(weibull_quantile_limits(lives, years, 0.5).lower * 365.25 == Approx(limits.lower).epsilon(1e-7));
    CHECK(weibull_quantile_limits(lives, years, 0.5).upper * 365.25 == Approx(limits.upper).epsilon(1e-7));
}

TEST_CASE("fit_weibull: leaving out late entry would bias lives upward", "[stats][property]")
{
    std::mt19937_64 random{7};
    const WeibullLife truth{2.0, 500};
    auto lives = random_lives::draw(random, truth, 4000, {.late_share = 0.8, .latest_entry = 1.2});
    const auto fit = fit_weibull(lives).value();
    CHECK(fit.life.scale == Approx(truth.scale).epsilon(0.05)); // 4000 lives: standard error about 1 %
    for (auto& life : lives) life.entry = 0.0;
    CHECK(fit_weibull(lives).value().life.scale > 1.15 * truth.scale);
}

TEST_CASE("fit_weibull: refuses with the reason", "[stats]")
{
    CHECK(fit_weibull(published::lives({}, {5, 6})).error() == NoFit::no_failures);
    CHECK(fit_weibull(published::lives({5, 5}, {4})).error() == NoFit::one_age_only);
    CHECK(fit_weibull({}).error() == NoFit::no_failures);
    // every life entered late and failed at once after it: the younger the start, the likelier
    const std::vector<LifeObservation> early{{1, 1.1, true}, {5, 9, false}, {2, 7, false}};
    CHECK(fit_weibull(early).error() == NoFit::no_maximum);
    CHECK_FALSE(no_fit_reason(NoFit::no_maximum).empty());
    CHECK(fit_lognormal(published::lives({}, {5, 6})).error() == NoFit::no_failures);
}

TEST_CASE("fit_exponential: no failure still bounds the rate", "[stats]")
{
    const auto fit = fit_exponential(published::lives({}, {100, 200}));
    CHECK(fit->rate == 0.0);
    CHECK(fit->rate_limits.lower == 0.0);
    CHECK(fit->rate_limits.upper ==
          Approx(-std::log(0.025) / 300).epsilon(1e-12)); // chi-squared with 2 is exact
    CHECK(highest_rate_without_failures(300) ==
          Approx(2.995732 / 300).epsilon(1e-6)); // -log 0.05, six digits
}
