// SPDX-License-Identifier: MIT
#include "stats/quantiles.hpp"
#include "stats/sparse_effects.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

using namespace harpkeep::stats;

namespace {

double normal_value(std::mt19937_64& random)
{
    return normal_quantile((static_cast<double>(random() >> 11) + 0.5) * 0x1.0p-53);
}

/// Values in groups of `group_size`: each group may be shifted as a whole, each value alone.
struct Case {
    std::vector<ObservedValue> observations;
    std::vector<CandidateEffect> candidates;
};

Case grouped_case(std::size_t groups, std::size_t group_size)
{
    Case made;
    made.observations.resize(groups * group_size, ObservedValue{.known_variance = 0.01});
    for (std::size_t g = 0; g < groups; ++g) {
        CandidateEffect group{.prior_deviation = 6.0, .prior_probability = 0.1};
        for (std::size_t i = 0; i < group_size; ++i) group.parts.push_back({g * group_size + i, 1.0});
        made.candidates.push_back(group);
    }
    for (std::size_t i = 0; i < made.observations.size(); ++i)
        made.candidates.push_back({.parts = {{i, 1.0}}, .prior_deviation = 10.0, .prior_probability = 0.02});
    return made;
}

double best_over_all_sets(const Case& problem)
{
    double best = -1e300;
    for (unsigned bits = 0; bits < (1U << problem.candidates.size()); ++bits) {
        std::vector<bool> present;
        for (std::size_t k = 0; k < problem.candidates.size(); ++k) present.push_back((bits >> k) & 1U);
        best = std::max(best, log_posterior_of_set(problem.observations, {}, problem.candidates, present));
    }
    return best;
}

} // namespace

TEST_CASE("sparse effects: as good as trying every set", "[stats][twin]")
{
    std::mt19937_64 random(20240517);
    for (int trial = 0; trial < 12; ++trial) {
        auto problem = grouped_case(2, 4); // ten candidates, 1,024 sets
        const bool shifted = trial % 2 == 0;
        for (std::size_t i = 0; i < problem.observations.size(); ++i)
            problem.observations[i].value = 0.8 * normal_value(random) + (shifted && i < 4 ? 5.0 : 0.0);
        if (trial % 3 == 0) problem.observations[6].value += 9.0;
        if (trial % 4 == 0) problem.observations[1].value -= 12.0;
        const auto fit = find_sparse_effects(problem.observations, {}, problem.candidates);
        CAPTURE(trial);
        CHECK(fit.log_posterior == Approx(best_over_all_sets(problem)).margin(1e-5)); // where scoring stops
    }
}

TEST_CASE("sparse effects: one value alone follows the closed form", "[stats][twin]")
{
    // With a scatter held at 1, posterior mean of an effect of prior N(0, 3^2) is value * 9 / (9 + 1).
    std::vector<ObservedValue> observations(40, ObservedValue{});
    observations[7].value = 20.0;
    const std::vector<CandidateEffect> candidates{{.parts = {{7, 1.0}}, .prior_deviation = 3.0}};
    const auto fit =
        find_sparse_effects(observations, {}, candidates, {.scatter_guess = 1.0, .scatter_log_spread = 1e-4});
    REQUIRE(fit.effects[0].present);
    CHECK(fit.effects[0].value == Approx(18.0).epsilon(1e-3));                 // spread of the held scatter
    CHECK(fit.effects[0].uncertainty == Approx(std::sqrt(0.9)).epsilon(1e-3)); // the same
    CHECK(fit.residuals[7] == Approx(2.0).epsilon(1e-2));
}

TEST_CASE("sparse effects: values that are all scatter show no effect", "[stats][property]")
{
    std::mt19937_64 random(7);
    auto problem = grouped_case(7, 6);
    int found = 0;
    for (int trial = 0; trial < 50; ++trial) {
        for (auto& observation : problem.observations) observation.value = 0.8 * normal_value(random);
        for (const auto& effect : find_sparse_effects(problem.observations, {}, problem.candidates).effects)
            found += effect.probability > 0.95;
    }
    CHECK(found <= 2); // 2,450 chances of about 1 in 10,000 each
}

TEST_CASE("sparse effects: twice the values, scatter and priors are twice the effects", "[stats][property]")
{
    std::mt19937_64 random(11);
    auto problem = grouped_case(3, 5);
    for (std::size_t i = 0; i < problem.observations.size(); ++i)
        problem.observations[i].value = 0.8 * normal_value(random) + (i < 5 ? 6.0 : 0.0);
    auto doubled = problem;
    for (auto& observation : doubled.observations) {
        observation.value *= 2.0;
        observation.known_variance *= 4.0;
    }
    for (auto& candidate : doubled.candidates) candidate.prior_deviation *= 2.0;
    const auto a = find_sparse_effects(problem.observations, {}, problem.candidates, {.scatter_guess = 1.0});
    const auto b = find_sparse_effects(doubled.observations, {}, doubled.candidates, {.scatter_guess = 2.0});
    CHECK(b.scatter == Approx(2.0 * a.scatter).epsilon(1e-5)); // where scoring stops
    REQUIRE(a.effects[0].present);
    CHECK(b.effects[0].value == Approx(2.0 * a.effects[0].value).epsilon(1e-5)); // where scoring stops
}
