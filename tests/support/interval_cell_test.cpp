// SPDX-License-Identifier: MIT
#include "tests/support/interval_cell.hpp"

#include "synth/random_source.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace harpkeep;
using namespace harpkeep::tests;

TEST_CASE("share_with_limits: none and all of ten, in closed form", "[reference]")
{
    // Clopper & Pearson: 0 of n has the upper limit 1 - (alpha / 2)^(1/n), all of n the lower (alpha /
    // 2)^(1/n).
    const double edge = std::pow(0.025, 0.1);
    CHECK(std::abs(share_with_limits(0, 10).high - (1.0 - edge)) < 1e-12); // closed form
    CHECK(std::abs(share_with_limits(10, 10).low - edge) < 1e-12);         // the same
    CHECK(share_with_limits(0, 10).low == 0.0);
    CHECK(share_with_limits(10, 10).high == 1.0);
}

TEST_CASE("IntervalCell: honest normal errors give 95 % and a width of 1, doubled ones show", "[property]")
{
    RandomSource random(5);
    IntervalCell honest, hiding;
    for (int i = 0; i < 4000; ++i) {
        const double error = 0.3 * random.normal();
        honest.add(error, 0.3, std::numeric_limits<double>::infinity());
        hiding.add(error, 0.6, std::numeric_limits<double>::infinity());
    }
    const ShareWithLimits held = honest.coverage();
    CHECK(held.low < 0.95);
    CHECK(held.high > 0.95);
    CHECK(held.high - held.low < 0.015);                       // 4 standard deviations of 4000
    CHECK(std::abs(honest.width_ratio() - 1.0) < 0.04);        // 3 standard deviations of 4000: 3.4 %
    CHECK(std::abs(honest.median_width_ratio() - 1.0) < 0.07); // the same of a median: 5.5 %
    CHECK(std::abs(hiding.width_ratio() / honest.width_ratio() - 2.0) < 1e-12); // exactly, but for rounding
    CHECK(hiding.coverage().share > 0.999); // 1 in 16 000 is beyond four sigma
}
