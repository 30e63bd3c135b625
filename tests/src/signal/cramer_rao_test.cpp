// SPDX-License-Identifier: MIT
#include "signal/cramer_rao.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace harpkeep;

namespace {

constexpr double nepers_per_60_db = 6.907755278982137;
constexpr double c4_hz = 261.6256;
const double noise_40_db = std::sqrt(0.5e-4); // eta = A^2 / (2 sigma^2) = 1e4 for A = 1

double sd_of_one(double t60_s, double length_s)
{
    const DampedStiffString sinusoid{
        c4_hz,
        0.0,
        {{.number = 1, .amplitude = 1.0, .decay_rate = nepers_per_60_db / t60_s, .phase_rad = 0.3}}};
    const auto bound = cramer_rao_bound(
        sinusoid,
        {.sample_rate_hz = 48000.0, .to_s = length_s, .noise_rms = noise_40_db, .inharmonicity_known = true});
    REQUIRE(bound);
    return bound->fundamental_sd_hz;
}

DampedStiffString six_partials()
{
    DampedStiffString string{c4_hz, 3.88806e-4, {}};
    for (int k = 1; k <= 6; ++k)
        string.partials.push_back(
            {.number = k, .amplitude = 1.0 / k, .decay_rate = 3.454 * (1.0 + 0.1 * k * k), .phase_rad = 0.0});
    return string;
}

} // namespace

TEST_CASE("cramer_rao_bound: one undamped sinusoid has the bound of Rife and Boorstyn", "[signal][reference]")
{
    // var(w) = 12 / (eta N (N^2 - 1)) for a real sinusoid; eta = 1e4, N = 48000 at 48 kHz.
    const DampedStiffString sinusoid{
        c4_hz, 0.0, {{.number = 1, .amplitude = 1.0, .decay_rate = 0.0, .phase_rad = 0.3}}};
    const auto bound = cramer_rao_bound(sinusoid, {.noise_rms = noise_40_db, .inharmonicity_known = true});
    REQUIRE(bound);
    const double n = 48000.0;
    const double closed_hz = 48000.0 / (2.0 * std::numbers::pi) * std::sqrt(12.0 / (1e4 * n * (n * n - 1.0)));
    CHECK(closed_hz == Approx(2.51646e-5).epsilon(1e-5)); // digits given
    // The closed form leaves out the image at -f, which counts 1 in 1,600 half-periods.
    CHECK(bound->fundamental_sd_hz == Approx(closed_hz).epsilon(1e-3));
}

TEST_CASE("cramer_rao_bound: one damped sinusoid has the closed form's bound", "[signal][reference]")
{
    // Long record: var(w) = 8 alpha^3 / (eta fs) (rad/s)^2; figures worked out from it for eta = 1e4, 48 kHz.
    // Tolerance: the image at -f, and 1.5 T60 of record instead of an endless one.
    CHECK(sd_of_one(8.0, 12.0) == Approx(1.6486e-5).epsilon(1e-3));
    CHECK(sd_of_one(2.0, 3.0) == Approx(1.3189e-4).epsilon(1e-3));
    CHECK(sd_of_one(0.5, 0.75) == Approx(1.0551e-3).epsilon(3e-3)); // fewer periods: the image counts more
    // Record of 1 s: var(w) = 1 / (eta fs (S2 - S1^2 / S0)), S_m = integral of t^m exp(-2 alpha t).
    CHECK(sd_of_one(8.0, 1.0) == Approx(3.9172e-5).epsilon(1e-3));
}

TEST_CASE("cramer_rao_bound: three harmonics have the bound of Christensen and Jakobsson",
          "[signal][reference]")
{
    // Multi-Pitch Estimation (2009) (from memory): var(w0) = 12 / (N (N^2 - 1) sum k^2 eta_k), real case;
    // A = 1/k, eta_1 = 1e4, N = 4800 at 48 kHz: 4.594e-4 Hz.
    DampedStiffString string{220.0, 0.0, {}};
    for (int k = 1; k <= 3; ++k)
        string.partials.push_back(
            {.number = k, .amplitude = 1.0 / k, .decay_rate = 0.0, .phase_rad = 0.7 * k});
    const auto bound =
        cramer_rao_bound(string, {.to_s = 0.1, .noise_rms = noise_40_db, .inharmonicity_known = true});
    REQUIRE(bound);
    // The closed form holds for partials far apart; 22 periods overlap by 1 %.
    CHECK(bound->fundamental_sd_hz == Approx(4.594e-4).epsilon(0.01));
}

TEST_CASE("cramer_rao_bound: a stiff string of six partials, B unknown and known", "[signal][reference]")
{
    // Figures of an independent program (numeric Fisher information, other phases): A = 1/k,
    // alpha = 3.454 (1 + 0.1 k^2), eta_1 = 40 dB, 1 s. Tolerance 0.3 %: the phases.
    const Observation seen{.noise_rms = noise_40_db};
    const auto bound = cramer_rao_bound(six_partials(), seen);
    REQUIRE(bound);
    CHECK(bound->fundamental_sd_hz == Approx(1.4247e-4).epsilon(3e-3));
    CHECK(bound->first_partial_sd_hz == Approx(1.310e-4).epsilon(3e-3));
    CHECK(bound->inharmonicity_sd == Approx(1.62e-7).epsilon(5e-3)); // three digits given
    Observation knowing = seen;
    knowing.inharmonicity_known = true;
    CHECK(cramer_rao_bound(six_partials(), knowing)->fundamental_sd_hz == Approx(1.1449e-4).epsilon(3e-3));
}

TEST_CASE("cramer_rao_bound: grows as the noise does and as the root of what is left out",
          "[signal][property]")
{
    const auto at = [](double noise_rms, double sample_rate_hz) {
        return cramer_rao_bound(six_partials(),
                                {.sample_rate_hz = sample_rate_hz, .to_s = 0.5, .noise_rms = noise_rms})
            ->first_partial_sd_hz;
    };
    const double once = at(1e-3, 48000.0);
    CHECK(at(1e-2, 48000.0) == Approx(10.0 * once).epsilon(1e-9)); // linear in the model: rounding
    // Half the samples hold half the information; partials lie on other parts of a sample: 0.1 %.
    CHECK(at(1e-3, 24000.0) == Approx(std::sqrt(2.0) * once).epsilon(1e-3));
}

TEST_CASE("cramer_rao_bound: one partial cannot tell the pitch when B is unknown", "[signal]")
{
    const DampedStiffString sinusoid{
        c4_hz, 1e-4, {{.number = 1, .amplitude = 1.0, .decay_rate = 1.0, .phase_rad = 0.3}}};
    CHECK_FALSE(cramer_rao_bound(sinusoid, {.noise_rms = 1e-3}));
}
