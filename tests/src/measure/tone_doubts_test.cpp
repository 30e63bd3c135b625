// SPDX-License-Identifier: MIT
#include "measure/tone_doubts.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

namespace {

PluckMeasurement unsure_pluck()
{
    return {
        .frequency_hz = 65.4, .uncertainty_cents = 3.0, .decay_s = 1.5, .partials = std::vector<Partial>(6)};
}

} // namespace

TEST_CASE("tone_doubts: a sure measurement has none", "[property]")
{
    auto pluck = unsure_pluck();
    pluck.uncertainty_cents = 0.1;
    CHECK(tone_doubts(pluck, {0.0, 0.3}, {.fitted_s = 0.29}).empty());
}

TEST_CASE("tone_doubts: an unsure one that was cut short is too short", "[property]")
{
    CHECK(tone_doubts(unsure_pluck(), {0.0, 0.3}, {.fitted_s = 0.29}) == std::vector{Doubt::too_short});
}

TEST_CASE("tone_doubts: an unsure one that was cut short while it sank is still gliding", "[property]")
{
    auto pluck = unsure_pluck();
    pluck.glide_cents = 4.0;
    CHECK(tone_doubts(pluck, {0.0, 0.3}, {.fitted_s = 0.29, .shared_sd_cents = 2.8}) ==
          std::vector{Doubt::still_gliding});
}

TEST_CASE("tone_doubts: an unsure one that rang long enough is too noisy", "[property]")
{
    CHECK(tone_doubts(unsure_pluck(), {0.0, 4.0}, {.fitted_s = 3.5}) == std::vector{Doubt::too_noisy});
}

TEST_CASE("tone_doubts: partials that form no series are irregular, however sure", "[property]")
{
    auto pluck = unsure_pluck();
    pluck.uncertainty_cents = 1.0;
    CHECK(tone_doubts(pluck, {0.0, 4.0}, {.fitted_s = 3.5, .series_scatter_cents = 12.0}) ==
          std::vector{Doubt::irregular});
}

TEST_CASE("tone_doubts: a string that was as loud before its pluck is disturbed", "[property]")
{
    CHECK(tone_doubts(unsure_pluck(), {0.0, 4.0}, {.fitted_s = 3.5, .rms_before = 0.08, .rms_at = 0.1}) ==
          std::vector{Doubt::disturbed});
}
