// SPDX-License-Identifier: MIT
#include "signal/glide.hpp"
#include "tests/src/signal/synthetic_band.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double alpha = 1.0;

std::vector<PartialFit> fitted_partials(double glide_cents, double noise_rms)
{
    std::vector<PartialFit> fits;
    for (int k = 1; k <= 4; ++k) {
        const PitchGlide glide{
            .amount = glide_cents / cents_per_neper, .time_s = 0.5 / alpha, .start_s = 0.0};
        const BandTone tone{
            .frequency_hz = 220.1 * k, .amplitude = 0.3 / k, .decay_rate = alpha, .glide = glide};
        const BandSettings settings{
            .reference_hz = 220.0 * k, .noise_rms = noise_rms, .seed = static_cast<std::uint64_t>(k)};
        const auto fit =
            fit_partial(synthetic_band({&tone, 1}, settings),
                        {.reach_hz = 3.0, .noise_level = std::max(noise_in_band(settings), 1e-6)});
        REQUIRE(fit);
        fits.push_back(*fit);
    }
    return fits;
}

GlideFit glide_of(const std::vector<PartialFit>& fits)
{
    return fit_glide(fits, {.decay_rate = alpha,
                            .start = {.amount = 0.0, .time_s = 0.5 / alpha, .start_s = 0.0},
                            .unsure_amount = 4.0 / cents_per_neper});
}

} // namespace

TEST_CASE("fit_glide: a glide that all partials share is found to an eighth in the first round", "[property]")
{
    const auto fits = fitted_partials(1.0, 1e-4);
    const auto glide = glide_of(fits);
    CHECK(glide.probability > 0.99);
    CHECK(std::abs(glide.glide.amount * cents_per_neper - 1.0) <
          0.125); // linear in the phase; refits do the rest
    for (std::size_t i = 0; i < fits.size(); ++i) {
        const double settled_hz = fits[i].frequency_hz - glide.shift_hz[i];
        const double error_cents =
            cents_per_neper * std::log(settled_hz / (220.1 * static_cast<double>(i + 1)));
        CHECK(std::abs(error_cents) < 0.05); // a tenth of the mean glide
    }
}

TEST_CASE("fit_glide: a tone without glide is left nearly alone", "[property]")
{
    const auto fits = fitted_partials(0.0, 1e-3);
    const auto glide = glide_of(fits);
    for (std::size_t i = 0; i < fits.size(); ++i) {
        const double error_cents = cents_per_neper * std::log((fits[i].frequency_hz - glide.shift_hz[i]) /
                                                              (220.1 * static_cast<double>(i + 1)));
        const double noise_cents =
            cents_per_neper * std::sqrt(fits[i].noise_variance_hz2) / fits[i].frequency_hz;
        CHECK(std::abs(error_cents) < 3.0 * noise_cents + 0.01); // its noise, and a hundredth for the shift
    }
}
