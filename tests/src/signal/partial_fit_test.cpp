// SPDX-License-Identifier: MIT
#include "signal/cramer_rao.hpp"
#include "signal/partial_fit.hpp"
#include "tests/src/signal/synthetic_band.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::tests;

TEST_CASE("fit_partial: a lone damped tone without noise is found to 1e-6 Hz", "[property]")
{
    const BandTone tone{.frequency_hz = 440.213, .amplitude = 0.3, .decay_rate = 2.0, .phase_rad = 1.0};
    const auto band = synthetic_band({&tone, 1}, {.reference_hz = 440.0});
    const auto fit = fit_partial(band, {.reach_hz = 2.0, .noise_level = 1e-9});
    REQUIRE(fit);
    CHECK(std::abs(fit->frequency_hz - tone.frequency_hz) <
          1e-6); // a thousandth of what noise at 60 dB leaves
    CHECK(std::abs(fit->decay_rate / tone.decay_rate - 1.0) < 0.02); // centroid over whole values
    CHECK(std::abs(fit->level / (0.3 * std::exp(-2.0 * band.first_s)) - 1.0) < 0.02); // the same
}

TEST_CASE("fit_partial: reaches 1.1 times the Cramer-Rao bound, and says so", "[reference]")
{
    // Bound of one damped tone, T to infinity: var(w) = 8 alpha^3 / (eta fs), eta = A^2 / (2 sigma^2), from
    // the derivation in src/signal/cramer_rao.hpp; here through cramer_rao_bound over the band's own length.
    const double alpha = 2.0, amplitude = 0.1, rate_hz = 4000.0, noise_rms = 0.003;
    const BandTone tone{.frequency_hz = 440.2, .amplitude = amplitude, .decay_rate = alpha};
    double square = 0.0, claimed = 0.0;
    constexpr int runs = 400;
    for (int i = 0; i < runs; ++i) {
        const BandSettings settings{.reference_hz = 440.0,
                                    .length_s = 2.0,
                                    .noise_rms = noise_rms,
                                    .rate_hz = rate_hz,
                                    .seed = static_cast<std::uint64_t>(i + 1)};
        const auto band = synthetic_band({&tone, 1}, settings);
        const auto fit = fit_partial(band, {.reach_hz = 2.0, .noise_level = noise_in_band(settings)});
        REQUIRE(fit);
        square += std::pow(fit->frequency_hz - tone.frequency_hz, 2);
        claimed += fit->noise_variance_hz2;
    }
    const auto bound = cramer_rao_bound(
        {.fundamental_hz = 440.2, .partials = {{.number = 1, .amplitude = amplitude, .decay_rate = alpha}}},
        {.sample_rate_hz = rate_hz, .to_s = 2.0, .noise_rms = noise_rms, .inharmonicity_known = true});
    REQUIRE(bound);
    const double sd_hz = std::sqrt(square / runs);
    CHECK(sd_hz <
          1.25 * bound->fundamental_sd_hz);        // 1.1 and what 400 runs (3.5 %) and the band's edges leave
    CHECK(sd_hz > 0.9 * bound->fundamental_sd_hz); // nobody is better than the bound, 3 standard deviations
    CHECK(std::abs(std::sqrt(claimed / runs) / sd_hz - 1.0) < 0.15); // 4 standard deviations of 400 runs
}

TEST_CASE("fit_partial: is silent where there is only noise", "[property]")
{
    int found = 0;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const BandSettings settings{.reference_hz = 440.0, .noise_rms = 0.01, .seed = seed};
        found += fit_partial(synthetic_band({}, settings),
                             {.reach_hz = 2.0, .noise_level = noise_in_band(settings)})
                     .has_value();
    }
    CHECK(found <= 2); // a peak of 4 times its noise in a dozen cells: under 1 % of bands
}

TEST_CASE("refit_partial: a glide taken off leaves the settled frequency", "[property]")
{
    const PitchGlide glide{.amount = 1e-3, .time_s = 0.4, .start_s = 0.0};
    const BandTone tone{.frequency_hz = 440.3, .amplitude = 0.3, .decay_rate = 1.0, .glide = glide};
    const auto band = synthetic_band({&tone, 1}, {.reference_hz = 440.0});
    const auto before = fit_partial(band, {.reach_hz = 2.0, .noise_level = 1e-9});
    REQUIRE(before);
    CHECK(before->frequency_hz > tone.frequency_hz + 0.02);
    const auto fit = refit_partial(band, *before, tone.frequency_hz, 0.5, glide);
    REQUIRE(fit);
    CHECK(std::abs(fit->frequency_hz - tone.frequency_hz) <
          2e-4); // the window averages over the bend: 3e-4 cent
}
