// SPDX-License-Identifier: MIT
#include "measure/step_measurement.hpp"
#include "measure/stiff_series.hpp"
#include "stats/quantiles.hpp"
#include "synth/random_source.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

/// A pluck whose partials deviate from the series as the string's do, each with its noise.
PluckMeasurement pluck_of(const StiffSeries& series, const std::vector<double>& deviations_cents,
                          double noise_cents, RandomSource& random)
{
    PluckMeasurement pluck{
        .frequency_hz = series.partial_hz(1), .inharmonicity = series.inharmonicity, .decay_s = 1.0};
    for (std::size_t i = 0; i < deviations_cents.size(); ++i) {
        const int k = static_cast<int>(i) + 1;
        pluck.partials.push_back(
            {.number = k,
             .frequency_hz = series.partial_hz(k) *
                             std::exp2((deviations_cents[i] + noise_cents * random.normal()) / 1200.0),
             .uncertainty_cents = noise_cents,
             .noise_cents = noise_cents,
             .decay_s = 1.0});
    }
    return pluck;
}

/// Lower and upper position of one string: B goes with 1 / L^2, so with the square of the pitch.
std::pair<StiffSeries, StiffSeries> positions(double f1_hz, double b, double step_cents)
{
    const double ratio = std::exp2(step_cents / 1200.0), b_upper = b * ratio * ratio;
    return {{f1_hz / std::sqrt(1.0 + b), b}, {f1_hz * ratio / std::sqrt(1.0 + b_upper), b_upper}};
}

} // namespace

TEST_CASE("measure_step: what the partials deviate by falls out, and B rising with 1/L^2 leaves no bias",
          "[property]")
{
    RandomSource random(1);
    for (const double b : {3e-5, 3e-4, 3e-3}) {
        std::vector<double> deviations;
        for (int k = 1; k <= 12; ++k) deviations.push_back(3.0 * random.normal());
        const auto [low, high] = positions(200.0, b, 104.3);
        const auto step =
            measure_step(pluck_of(low, deviations, 1e-4, random), pluck_of(high, deviations, 1e-4, random));
        REQUIRE(step);
        CHECK(std::abs(step->size_cents - 104.3) < 0.02); // the bias that is allowed
        CHECK(step->shared_partials == 12);
    }
}

TEST_CASE("measure_step: the way back is the same step downwards", "[property]")
{
    RandomSource random(2);
    const auto [low, high] = positions(300.0, 1e-4, 98.0);
    const std::vector<double> deviations(9, 0.0);
    const auto a = pluck_of(low, deviations, 0.05, random), b = pluck_of(high, deviations, 0.05, random);
    const auto up = measure_step(a, b), down = measure_step(b, a);
    REQUIRE((up && down));
    CHECK(std::abs(up->size_cents + down->size_cents) < 1e-3); // the bend is expected at one of the two
    CHECK(std::abs(up->uncertainty_cents / down->uncertainty_cents - 1.0) < 0.01); // the same
}

TEST_CASE("measure_step: nothing is shared, nothing is measured", "[property]")
{
    RandomSource random(3);
    auto a = pluck_of({200.0, 1e-4}, {0.0, 0.0}, 0.1, random),
         b = pluck_of({212.0, 1e-4}, {0.0, 0.0}, 0.1, random);
    for (auto& partial : b.partials) partial.number += 5;
    CHECK_FALSE(measure_step(a, b));
    CHECK_FALSE(measure_step(std::vector{a}, std::vector{b}));
    CHECK_FALSE(measure_step(std::vector<PluckMeasurement>{}, std::vector{b}));
}

TEST_CASE("measure_step: repeats are surer, and say how sure", "[property]")
{
    // Each pluck's partials are off by a share of their own (0.2 cent), as two polarisations leave it, and
    // strong in another way (3 dB).
    RandomSource random(4);
    const auto [low, high] = positions(261.6, 1e-4, 100.0);
    int held = 0;
    double one_square = 0.0, three_square = 0.0;
    constexpr int runs = 200;
    for (int i = 0; i < runs; ++i) {
        std::vector<PluckMeasurement> a, b;
        for (int n = 0; n < 3; ++n) {
            std::vector<double> off_a, off_b;
            for (int k = 0; k < 8; ++k)
                off_a.push_back(0.2 * random.normal()), off_b.push_back(0.2 * random.normal());
            a.push_back(pluck_of(low, off_a, 0.02, random)), b.push_back(pluck_of(high, off_b, 0.02, random));
            for (auto* pluck : {&a.back(), &b.back()})
                for (auto& partial : pluck->partials) partial.level_db = 3.0 * random.normal();
        }
        const auto one = measure_step(a[0], b[0]), three = measure_step(a, b);
        REQUIRE((one && three));
        one_square += std::pow(one->size_cents - 100.0, 2) / runs;
        three_square += std::pow(three->size_cents - 100.0, 2) / runs;
        held += std::abs(three->size_cents - 100.0) <=
                stats::coverage_factor(0.95, three->degrees_of_freedom) * three->uncertainty_cents;
    }
    CHECK(three_square < 0.5 * one_square); // a third, and room for 200 runs
    CHECK(held >= 0.90 * runs);             // 95 %, less 3 standard deviations of 200 runs
}

TEST_CASE("measure_step: what was found in the place of lost partials does not count", "[regression]")
{
    // A real pluck in noise: four partials of the string, and seven that were something else in one position.
    RandomSource random(5);
    const auto [low, high] = positions(932.3, 5e-4, 97.0);
    const std::vector<double> deviations(11, 0.0);
    const auto a = pluck_of(low, deviations, 0.05, random);
    auto b = pluck_of(high, deviations, 0.05, random);
    for (std::size_t i = 4; i < 11; ++i)
        b.partials[i].frequency_hz *= std::exp2(-20.0 * static_cast<double>(i - 3) / 1200.0);
    const auto step = measure_step(a, b);
    REQUIRE(step);
    CHECK(step->shared_partials == 4);
    CHECK(std::abs(step->size_cents - 97.0) < 0.15); // four partials of 0.07 cent each: 4 standard deviations
}

TEST_CASE("measure_step: plucks alike in the levels of their partials are taken to glide alike", "[property]")
{
    RandomSource random(6);
    const auto [low, high] = positions(261.6, 1e-4, 100.0);
    const std::vector<double> deviations(8, 0.0);
    auto a = pluck_of(low, deviations, 0.02, random), b = pluck_of(high, deviations, 0.02, random);
    a.glide_uncertainty_cents = b.glide_uncertainty_cents = 0.3;
    for (auto& partial : b.partials) partial.glide_cents = 0.2; // as one fit has it, and the other has not
    const auto alike = measure_step(a, b);
    for (auto& partial : b.partials) partial.level_db = partial.number % 2 ? 4.0 : -4.0;
    const auto unlike = measure_step(a, b);
    REQUIRE((alike && unlike));
    CHECK(std::abs(alike->size_cents - 100.0) < 0.03); // 3 standard deviations of the mean of eight
    CHECK(alike->uncertainty_cents < 0.15 * unlike->uncertainty_cents); // the noise alone leaves 0.07 of it
    CHECK(std::abs(unlike->size_cents - 100.0) <
          2.0 * unlike->uncertainty_cents); // the wrong glide is within what it says
}
