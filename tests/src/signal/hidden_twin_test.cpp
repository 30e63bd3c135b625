// SPDX-License-Identifier: MIT
#include "signal/hidden_twin.hpp"
#include "tests/src/signal/synthetic_band.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Dense>

#include <cmath>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double decay_rate = 2.0, frequency_hz = 440.0, noise_level = 1e-3;

/// The second tone's power that a dense least-squares fit of exp(-at) and t exp(-at) leaves over, against
/// theirs.
double left_over_densely(const Baseband& band, const Twin& twin)
{
    const auto n = static_cast<Eigen::Index>(band.values.size());
    Eigen::MatrixXcd columns(n, 2);
    Eigen::VectorXcd second(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const double t = band.hop_s * static_cast<double>(i);
        columns(i, 0) = std::exp(-decay_rate * t), columns(i, 1) = t * std::exp(-decay_rate * t);
        second(i) = std::polar(std::exp(-twin.decay_ratio * decay_rate * t),
                               2.0 * std::numbers::pi * frequency_hz * twin.split * t);
    }
    const Eigen::VectorXcd taken = columns * columns.householderQr().solve(second);
    return (second - taken).squaredNorm() / columns.col(0).squaredNorm();
}

} // namespace

TEST_CASE("expected_misfit: is what a dense least-squares fit leaves over", "[twin]")
{
    const auto band =
        synthetic_band(std::vector<BandTone>{{.frequency_hz = frequency_hz, .decay_rate = decay_rate}}, {});
    const std::vector<TonePartial> partials{
        {.band = &band, .frequency_hz = frequency_hz, .decay_rate = decay_rate, .noise_level = noise_level}};
    double energy = 0.0;
    for (const auto& value : band.values) energy += std::norm(value);
    const double snr = energy / static_cast<double>(band.values.size()) / (noise_level * noise_level) - 1.0;
    for (const double split_cents : {0.0, 0.6, 3.0})
        for (const double ratio : {0.6, 1.0, 1.5}) {
            const Twin twin{.split = split_cents / cents_per_neper, .decay_ratio = ratio, .share = 0.2};
            const double dense = std::log1p(0.04 * left_over_densely(band, twin) * snr);
            CHECK(std::abs(expected_misfit(partials, twin) - dense) <
                  1e-6 + 1e-6 * dense); // rounding of sums
        }
}

TEST_CASE("expected_misfit: a second tone like the first leaves nothing, noise hides the others",
          "[property]")
{
    const auto band =
        synthetic_band(std::vector<BandTone>{{.frequency_hz = frequency_hz, .decay_rate = decay_rate}}, {});
    const auto misfit = [&](const Twin& twin, double noise) {
        const std::vector<TonePartial> partials{
            {.band = &band, .frequency_hz = frequency_hz, .decay_rate = decay_rate, .noise_level = noise}};
        return expected_misfit(partials, twin);
    };
    CHECK(misfit({.split = 0.0, .decay_ratio = 1.0, .share = 0.2}, 1e-4) < 1e-6); // rounding of sums
    const Twin apart{.split = 2.0 / cents_per_neper, .decay_ratio = 0.6, .share = 0.2};
    double before = misfit(apart, 1e-4);
    CHECK(before > 1.0);
    for (const double noise : {1e-3, 1e-2, 1e-1}) {
        CHECK(misfit(apart, noise) < before);
        before = misfit(apart, noise);
    }
    CHECK(before < 0.01);
}

TEST_CASE("usual_hidden_cents: more of it where few partials are heard and where the glide has not settled",
          "[property]")
{
    const BandSettings settings{};
    const auto band = synthetic_band(
        std::vector<BandTone>{{.frequency_hz = frequency_hz, .decay_rate = decay_rate}}, settings);
    const std::vector<TonePartial> partials{{.band = &band, .frequency_hz = frequency_hz}};
    const double length_s = band.hop_s * static_cast<double>(band.values.size());
    CHECK(unsettled_share(partials, length_s) == Approx(std::exp(-1.0)).epsilon(1e-12)); // rounding
    CHECK(unsettled_share(partials, 0.1 * length_s) < 1e-4);
    // What errors of one tone were seen to be (rms, cents; 1.7 s of tone): 0.26 with 2 partials of 3136 Hz,
    // 0.17 with 8 of 392 Hz, 0.46 with 35 of 33 Hz, whose glide falls by 1/e in 0.93 s.
    CHECK(usual_hidden_cents(2, 0.0) == Approx(0.28).margin(0.04)); // errors of 100 plucks are known to 7 %
    CHECK(usual_hidden_cents(8, std::exp(-4.6)) == Approx(0.17).margin(0.03));
    // Most of the last is told by the glide's own uncertainty as well, so that less is said here.
    CHECK(usual_hidden_cents(35, std::exp(-1.83)) == Approx(0.4).margin(0.06));
}
