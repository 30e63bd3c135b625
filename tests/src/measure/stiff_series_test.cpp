// SPDX-License-Identifier: MIT
#include "measure/stiff_series.hpp"
#include "synth/random_source.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;

namespace {

std::vector<SeriesPoint> points_of(const StiffSeries& series, int count, double noise_cents,
                                   RandomSource& random)
{
    std::vector<SeriesPoint> points;
    for (int k = 1; k <= count; ++k)
        points.push_back({k, series.partial_hz(k) * std::exp2(noise_cents * random.normal() / 1200.0),
                          noise_cents * noise_cents});
    return points;
}

} // namespace

TEST_CASE("stiff series: partial frequencies are those of the published form", "[reference]")
{
    // f_n = n f0 sqrt(1 + B n^2): Hodgkinson et al., DAFx-09, eq. 1; worked for steel, B = 3.88806e-4:
    // partial 8 lies 21.2760 cents above 8 f0.
    const StiffSeries steel{261.6256, 3.88806e-4};
    CHECK(std::abs(1200.0 * std::log2(steel.partial_hz(8) / (8.0 * 261.6256)) - 21.2760) <
          5e-5); // digits given
    // R. W. Young, JASA 24 (1952), abstract: about 1.2 cents at mode 2 for middle C of a piano, against mode
    // 1's share of it: B = 3.4657e-4.
    const StiffSeries young{261.6256, 3.4657e-4};
    CHECK(std::abs(1200.0 * std::log2(young.partial_hz(2) / (2.0 * 261.6256)) - 1.2) <
          2e-3); // two digits given
}

TEST_CASE("fit_series: F and B come back from exact partials", "[property]")
{
    RandomSource random(1);
    const StiffSeries truth{130.8, 6e-5};
    const auto fit = fit_series(points_of(truth, 15, 1e-3, random), 1e-4);
    CHECK(std::abs(cents_per_neper * std::log(fit.first_partial_hz / truth.partial_hz(1))) <
          5e-3);                                                                  // its noise
    CHECK(std::abs(fit.series.inharmonicity / truth.inharmonicity - 1.0) < 0.01); // 0.001 of 11 cents at 15
    CHECK(fit.residual_cents.size() == 15);
}

TEST_CASE("fit_series: a stray partial is not trusted and does not pull", "[property]")
{
    RandomSource random(2);
    const StiffSeries truth{130.8, 6e-5};
    auto points = points_of(truth, 15, 0.05, random);
    points[6].frequency_hz *= std::exp2(8.0 / 1200.0);
    const auto fit = fit_series(points, 1e-4);
    CHECK(std::abs(cents_per_neper * std::log(fit.first_partial_hz / truth.partial_hz(1))) <
          0.15); // 3 of its noise
    CHECK(fit.trust[6] < 0.2);
}

TEST_CASE("fit_series: all frequencies times a ratio give F times the ratio and the same B", "[property]")
{
    RandomSource random(3);
    auto points = points_of({261.0, 1e-4}, 10, 0.1, random);
    const auto before = fit_series(points, 1e-4);
    for (auto& point : points) point.frequency_hz *= 1.0594631;
    const auto after = fit_series(points, 1e-4);
    CHECK(std::abs(after.first_partial_hz / before.first_partial_hz / 1.0594631 - 1.0) < 1e-9); // rounding
    CHECK(std::abs(after.series.inharmonicity / before.series.inharmonicity - 1.0) < 1e-6);     // the same
    CHECK(std::abs(after.uncertainty_cents / before.uncertainty_cents - 1.0) < 1e-6);           // the same
}
