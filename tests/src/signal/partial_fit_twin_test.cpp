// SPDX-License-Identifier: MIT
#include "signal/partial_fit.hpp"
#include "tests/src/signal/synthetic_band.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Dense>

#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

struct DenseFit {
    double frequency_hz = 0.0, decay_rate = 0.0, level = 0.0;
    double frequency_sd_hz = 0.0; ///< for residuals of standard deviation 1
};

/// Gauss-Newton with derivatives by differences, solved by QR, over amplitude (two), frequency and decay.
///
/// Given  model  y_n of the unknowns: a real vector
template <class Model>
DenseFit fit_densely(const Model& model, const Eigen::VectorXd& sound, DenseFit start, bool decay_known)
{
    Eigen::Vector4d x{start.level, 0.0, start.frequency_hz, start.decay_rate};
    const Eigen::Vector4d step{1e-5 * start.level, 1e-5 * start.level, 1e-5, 1e-5};
    const Eigen::Index unknowns = decay_known ? 3 : 4;
    Eigen::MatrixXd j(sound.size(), unknowns);
    for (int round = 0; round < 30; ++round) {
        for (Eigen::Index k = 0; k < unknowns; ++k) {
            Eigen::Vector4d up = x, down = x;
            up(k) += step(k), down(k) -= step(k);
            j.col(k) = 0.5 * (model(up) - model(down));
        }
        const Eigen::VectorXd move = j.householderQr().solve(sound - model(x));
        for (Eigen::Index k = 0; k < unknowns; ++k) x(k) += step(k) * move(k);
        if (move.cwiseAbs().maxCoeff() < 1e-6) break;
    }
    const Eigen::MatrixXd covariance = (j.transpose() * j).inverse();
    return {.frequency_hz = x(2),
            .decay_rate = x(3),
            .level = std::hypot(x(0), x(1)),
            .frequency_sd_hz = step(2) * std::sqrt(covariance(2, 2))};
}

struct Case {
    BandTone tone{.frequency_hz = 440.2, .amplitude = 0.1, .decay_rate = 2.0, .phase_rad = 0.7};
    BandSettings band{.reference_hz = 440.0, .length_s = 2.0, .noise_rms = 0.003};
};

Case noisy_case(std::uint64_t seed)
{
    RandomSource random(seed);
    Case c;
    c.tone.frequency_hz = 440.0 + random.uniform(-0.5, 0.5);
    c.tone.decay_rate = random.uniform(1.0, 5.0);
    c.tone.phase_rad = random.uniform(0.0, 6.28);
    c.band.noise_rms = std::pow(10.0, random.uniform(-3.5, -1.5));
    c.band.seed = seed;
    return c;
}

/// The band's values by the model that the header states: weighted exp(-0.7 alpha t), the decay held. The
/// strongest frequency of the weighted spectrum is where a tone of that decay fits best.
DenseFit fit_band(const Baseband& band, double decay_rate, const PitchGlide& glide, double frequency_hz)
{
    const auto count = static_cast<Eigen::Index>(band.values.size());
    Eigen::VectorXd sound(2 * count);
    for (Eigen::Index n = 0; n < count; ++n) {
        const auto value = band.values[static_cast<std::size_t>(n)];
        sound(2 * n) = value.real(), sound(2 * n + 1) = value.imag();
    }
    const auto model = [&](const Eigen::Vector4d& x) {
        Eigen::VectorXd y(2 * count);
        for (Eigen::Index n = 0; n < count; ++n) {
            const double t = band.hop_s * static_cast<double>(n);
            const double turns = (x(2) - band.reference_hz) * t +
                                 glide.turns(frequency_hz, band.time_s(static_cast<std::size_t>(n)));
            const auto value =
                std::complex<double>{x(0), x(1)} * std::polar(std::exp(-x(3) * t), two_pi * turns);
            y(2 * n) = value.real(), y(2 * n + 1) = value.imag();
        }
        return y;
    };
    return fit_densely(
        model, sound,
        {.frequency_hz = frequency_hz, .decay_rate = 0.7 * decay_rate, .level = std::abs(band.values[0])},
        true);
}

/// The samples themselves by one damped tone, all four unknowns free: the likeliest in white noise.
DenseFit fit_samples(const Case& c)
{
    const auto samples = synthetic_samples({&c.tone, 1}, c.band);
    const auto count = static_cast<Eigen::Index>(samples.size());
    Eigen::VectorXd sound(count);
    for (Eigen::Index n = 0; n < count; ++n)
        sound(n) = static_cast<double>(samples[static_cast<std::size_t>(n)]);
    const auto model = [&](const Eigen::Vector4d& x) {
        Eigen::VectorXd y(count);
        for (Eigen::Index n = 0; n < count; ++n) {
            const double t = static_cast<double>(n) / c.band.rate_hz;
            const double turns = x(2) * t + c.tone.glide.turns(c.tone.frequency_hz, t);
            y(n) = std::exp(-x(3) * t) * (x(0) * std::cos(two_pi * turns + c.tone.phase_rad) -
                                          x(1) * std::sin(two_pi * turns + c.tone.phase_rad));
        }
        return y;
    };
    return fit_densely(
        model, sound,
        {.frequency_hz = c.tone.frequency_hz, .decay_rate = c.tone.decay_rate, .level = c.tone.amplitude},
        false);
}

} // namespace

TEST_CASE("fit_partial: agrees with a dense fit of the same model to the band's values", "[twin]")
{
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const Case c = noisy_case(seed);
        const auto band = synthetic_band({&c.tone, 1}, c.band);
        const auto fit = fit_partial(band, {.reach_hz = 2.0, .noise_level = noise_in_band(c.band)});
        REQUIRE(fit);
        const auto dense = fit_band(band, fit->decay_rate, {}, c.tone.frequency_hz);
        INFO("seed " << seed);
        // The same maximum: what the last step of either leaves, a millionth of the uncertainty.
        CHECK(std::abs(fit->frequency_hz - dense.frequency_hz) < 1e-6 * std::sqrt(fit->noise_variance_hz2));
    }
}

TEST_CASE("refit_partial: agrees with a dense fit of a gliding tone to the band's values", "[twin]")
{
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        Case c = noisy_case(seed);
        c.tone.glide = {.amount = 1e-3, .time_s = 0.4, .start_s = 0.0};
        const auto band = synthetic_band({&c.tone, 1}, c.band);
        const auto before = fit_partial(band, {.reach_hz = 2.0, .noise_level = noise_in_band(c.band)});
        REQUIRE(before);
        const auto fit = refit_partial(band, *before, c.tone.frequency_hz, 0.5, c.tone.glide);
        REQUIRE(fit);
        const auto dense = fit_band(band, before->decay_rate, c.tone.glide, c.tone.frequency_hz);
        INFO("seed " << seed);
        CHECK(std::abs(fit->frequency_hz - dense.frequency_hz) <
              1e-6 * std::sqrt(fit->noise_variance_hz2)); // as above
    }
}

TEST_CASE("fit_partial: agrees with a dense fit of all four unknowns to the samples themselves", "[twin]")
{
    double square = 0.0;
    constexpr int cases = 40;
    for (std::uint64_t seed = 1; seed <= cases; ++seed) {
        const Case c = noisy_case(seed);
        const auto band = synthetic_band({&c.tone, 1}, c.band);
        const auto fit = fit_partial(band, {.reach_hz = 2.0, .noise_level = noise_in_band(c.band)});
        REQUIRE(fit);
        const auto dense = fit_samples(c);
        const double sd_hz = std::sqrt(fit->noise_variance_hz2);
        const double bound_hz = c.band.noise_rms * dense.frequency_sd_hz;
        INFO("seed " << seed);
        // The longer weight costs 6.5 % of standard deviation; what the first window's rise fades costs more,
        // the quicker the tone dies: 31 % in all at 5/s.
        CHECK(sd_hz > bound_hz);
        CHECK(sd_hz < 1.35 * bound_hz);
        // The difference from an efficient fit has the variance that it lacks (Hausman 1978, from memory).
        const double apart_sd_hz = std::sqrt(sd_hz * sd_hz - bound_hz * bound_hz);
        const double apart = (fit->frequency_hz - dense.frequency_hz) / apart_sd_hz;
        CHECK(std::abs(apart) < 3.5); // 1 in 50 runs of 40 cases
        square += apart * apart;
        // Centroid over whole values: 1 %; and what noise does to it, about as much as to the efficient one.
        const double noisy = 2.0 * two_pi * bound_hz / c.tone.decay_rate;
        CHECK(std::abs(std::log(fit->decay_rate / dense.decay_rate)) < 0.01 + noisy);
        const double level = dense.level * std::exp(-dense.decay_rate * band.first_s);
        CHECK(std::abs(std::log(fit->level / level)) < 0.01 + noisy); // the same
    }
    CHECK(std::abs(std::sqrt(square / cases) - 1.0) < 0.34); // 3 standard deviations of 40 cases
}
