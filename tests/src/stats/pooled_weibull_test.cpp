// SPDX-License-Identifier: MIT
#include "stats/pooled_weibull.hpp"

#include "published_lives.hpp"
#include "random_lives.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep::stats;

namespace {

using Groups = std::vector<std::vector<LifeObservation>>;

double log_likelihood(const std::vector<LifeObservation>& lives, double shape, double rate)
{
    double total = 0.0;
    for (const auto& life : lives) {
        if (life.failed) total += std::log(rate * shape) + (shape - 1.0) * std::log(life.exit);
        total -= rate * (std::pow(life.exit, shape) - std::pow(life.entry, shape));
    }
    return total;
}

/// Chance of failing from new by `time` of one group alone, by adding up a plain grid over log shape and log
/// scale: with one group the population adds nothing, so only the prior of the shape is left.
double one_group_by_grid(const std::vector<LifeObservation>& lives, double time)
{
    double weighted = 0.0, total = 0.0;
    for (double log_shape = -2.0; log_shape < 3.0; log_shape += 0.05)
        for (double log_scale = -3.0; log_scale < 30.0; log_scale += 0.05) {
            const double shape = std::exp(log_shape), rate = std::exp(-shape * log_scale);
            const double z = (log_shape - std::log(1.4)) / 0.5;
            const double weight = std::exp(log_likelihood(lives, shape, rate) - 0.5 * z * z + 30.0);
            total += weight;
            weighted += weight * -std::expm1(-rate * std::pow(time, shape));
        }
    return weighted / total;
}

/// Posterior means of the chance to fail from new by `time`, by a random walk over all unknowns at once:
/// shape, typical scale, spread and every group's multiple, with nothing integrated in closed form.
std::vector<double> by_random_walk(const Groups& groups, double time, int steps)
{
    std::mt19937_64 random{77};
    const auto normal = [&random] {
        return std::sqrt(-2.0 * std::log(random_lives::uniform(random))) *
               std::cos(6.283185307179586 * random_lives::uniform(random));
    };
    const auto density = [&groups](const std::vector<double>& x) {
        const double shape = std::exp(x[0]), spread = std::exp(x[2]);
        if (spread > 2.0) return -1e300;
        const double c = 1.0 / (spread * spread);
        const double z = (x[0] - std::log(1.4)) / 0.5;
        double total = -0.5 * z * z - 0.5 * spread * spread + x[2]; // half-normal spread, walked in its log
        for (std::size_t g = 0; g < groups.size(); ++g) {
            const double log_multiple = x[3 + g], multiple = std::exp(log_multiple);
            total += c * std::log(c) - std::lgamma(c) + c * log_multiple - c * multiple;
            total += log_likelihood(groups[g], shape, multiple * std::exp(-shape * x[1]));
        }
        return total;
    };
    std::vector<double> x(3 + groups.size(), 0.0), sums(groups.size(), 0.0);
    double now = density(x);
    int kept = 0;
    for (int step = 0; step < steps; ++step) {
        for (std::size_t i = 0; i < x.size(); ++i) { // one unknown at a time
            auto moved = x;
            moved[i] += (i == 0 ? 0.3 : i == 1 ? 0.4 : 0.8) * normal();
            const double then = density(moved);
            if (std::log(random_lives::uniform(random)) >= then - now) continue;
            x = moved;
            now = then;
        }
        if (step < steps / 20) continue;
        ++kept;
        for (std::size_t g = 0; g < groups.size(); ++g)
            sums[g] -= std::expm1(-std::exp(x[3 + g] + std::exp(x[0]) * (std::log(time) - x[1])));
    }
    for (auto& sum : sums) sum /= kept;
    return sums;
}

/// Three groups in years, one of them without a failure.
Groups three_groups()
{
    std::mt19937_64 random{41};
    return {random_lives::draw(random, {1.6, 1.0}, 12, {.late_share = 0.3}),
            random_lives::draw(random, {1.6, 2.5}, 8, {.late_share = 0.3}),
            {{0.0, 1.2, false}, {0.4, 2.0, false}, {0.0, 0.7, false}}};
}

} // namespace

TEST_CASE("pool_lives: one group alone agrees with a plain grid", "[stats][twin]")
{
    std::mt19937_64 random{42};
    const auto count = GENERATE(4, 20);
    const auto lives = random_lives::draw(random, {1.6, 1.0}, count, {.late_share = 0.4});
    const auto pooled = pool_lives(Groups{lives}, {.scenarios = 20000}).value();
    for (const double time : {0.3, 1.0})
        CHECK(pooled_failure_within(pooled, 0, 0.0, time).value ==
              Approx(one_group_by_grid(lives, time)).epsilon(0.008)); // scatter of 20000 scenarios
}

TEST_CASE("mean_failure_within: is the value of the estimate with limits", "[stats][twin]")
{
    const auto pooled = pool_lives(three_groups()).value();
    for (std::size_t g = 0; g <= pooled.unseen(); ++g)
        for (const double age : {0.0, 0.3, 2.0})
            CHECK(mean_failure_within(pooled, g, age, 0.25) ==
                  pooled_failure_within(pooled, g, age, 0.25).value); // the same sum in the same order
}

TEST_CASE("pool_lives: three groups agree with a random walk over all unknowns", "[stats][twin]")
{
    const auto groups = three_groups();
    const auto pooled = pool_lives(groups).value();
    const auto walked = by_random_walk(groups, 0.5, 60000);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        CAPTURE(g);
        CHECK(pooled_failure_within(pooled, g, 0.0, 0.5).value ==
              Approx(walked[g]).epsilon(0.04)); // twice the scatter of walks with other seeds
    }
}

TEST_CASE("pool_lives: much data outweighs pooling and prior", "[stats][property]")
{
    std::mt19937_64 random{43};
    const Groups groups{random_lives::draw(random, {2.4, 300}, 600, {.late_share = 0.3}),
                        random_lives::draw(random, {2.4, 900}, 600, {.late_share = 0.3})};
    const auto pooled = pool_lives(groups).value();
    const auto common = fit_weibull_common_shape(groups).value();
    CHECK(pooled_shape(pooled).value == Approx(common.shape).epsilon(0.01)); // prior worth about one failure
    for (std::size_t g = 0; g < 2; ++g)
        CHECK(pooled_quantile(pooled, g, 0.5).value ==
              Approx(weibull_quantile({common.shape, common.scales[g]}, 0.5)).epsilon(0.01));
}

TEST_CASE("pool_lives: a group with few failures leans on the others", "[stats][property]")
{
    std::mt19937_64 random{44};
    Groups groups;
    for (int g = 0; g < 5; ++g) groups.push_back(random_lives::draw(random, {1.5, 500}, 40, {}));
    groups.push_back(published::lives({60}, {50, 55, 61})); // one early break says little
    const auto pooled = pool_lives(groups).value();
    const auto few = pooled_quantile(pooled, 5, 0.5), many = pooled_quantile(pooled, 0, 0.5);
    const auto alone = weibull_quantile(fit_weibull(groups[5]).value().life, 0.5);
    CHECK(alone < 75.0);
    CHECK(few.value > 2.0 * alone); // drawn to the others
    CHECK(few.limits.upper / few.limits.lower > 1.1 * many.limits.upper / many.limits.lower); // and unsure
    CHECK(pooled_quantile(pooled, pooled.unseen(), 0.5).value ==
          Approx(many.value).epsilon(0.35)); // like the rest
}

TEST_CASE("pool_lives: a group without failures gets limits, not silence", "[stats]")
{
    const auto pooled = pool_lives(three_groups()).value();
    const auto chance = pooled_failure_within(pooled, 2, 1.0, 0.5);
    CHECK(chance.limits.lower >= 0.0);
    CHECK(chance.value > 0.0);
    CHECK(chance.limits.upper < 1.0);
    CHECK(pooled.evidence[2].failures == 0);
}

TEST_CASE("pool_lives: the clock and the seed hardly matter, the order of lives not at all",
          "[stats][property]")
{
    auto groups = three_groups();
    const auto pooled = pool_lives(groups).value();
    const double chance = pooled_failure_within(pooled, 0, 0.2, 0.5).value;
    const double other_seed =
        pooled_failure_within(pool_lives(groups, {.seed = 9}).value(), 0, 0.2, 0.5).value;
    CHECK(other_seed == Approx(chance).epsilon(0.03)); // scatter of 1000 scenarios
    for (auto& group : groups) {
        std::reverse(group.begin(), group.end());
        for (auto& life : group) life = {life.entry * 365.25, life.exit * 365.25, life.failed};
    }
    CHECK(pooled_failure_within(pool_lives(groups).value(), 0, 0.2 * 365.25, 0.5 * 365.25).value ==
          Approx(chance).epsilon(1e-6)); // rounding that can move a node across a stratum
}

TEST_CASE("pool_lives: without any failure there is nothing to pool", "[stats]")
{
    CHECK(pool_lives(Groups{published::lives({}, {3, 4})}).error() == NoFit::no_failures);
    CHECK(pool_lives(Groups{}).error() == NoFit::no_failures);
    CHECK(pool_lives(
        Groups{{}, published::lives({3}, {4})})); // an empty group is one of which nothing is known
}

TEST_CASE("estimate_from: mean, median and quantiles between values", "[stats]")
{
    const auto mean = estimate_from({4, 1, 2, 3, 10}, 0.5);
    CHECK(mean.value == 4.0);
    CHECK(mean.limits.lower == 2.0); // a quarter of the way along five sorted values
    CHECK(mean.limits.upper == 4.0);
    CHECK(median_from({4, 1, 2, 3, 10}).value == 3.0);
}
