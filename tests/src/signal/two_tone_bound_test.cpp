// SPDX-License-Identifier: MIT
#include "signal/cramer_rao.hpp"
#include "tests/support/two_tone_bound.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Dense>

#include <cmath>
#include <functional>
#include <numbers>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;
constexpr double rate_hz = 4000.0, noise_rms = 0.001;

TwoTonePluck example(std::complex<double> twin)
{
    TwoTonePluck pluck{.first_hz = 262.0,
                       .inharmonicity = 1e-4,
                       .glide = {.amount = 1.0 / cents_per_neper, .time_s = 0.4, .start_s = 0.0},
                       .split = 0.6 / cents_per_neper,
                       .decay_ratio = 0.6,
                       .sample_rate_hz = rate_hz,
                       .length_s = 1.5};
    for (int k = 1; k <= 5; ++k)
        pluck.partials.push_back({.number = k,
                                  .amplitude = 0.1 / k,
                                  .decay_rate = 1.2 * std::pow(k, 0.6),
                                  .twin = twin * std::polar(1.0, 1.3 * k),
                                  .noise_rms = noise_rms});
    return pluck;
}

/// The samples as the sum of real tones, all unknowns in one vector.
Eigen::VectorXd samples_of(const TwoTonePluck& pluck, const Eigen::VectorXd& x)
{
    const auto count = static_cast<Eigen::Index>(pluck.length_s * rate_hz);
    Eigen::VectorXd samples = Eigen::VectorXd::Zero(count);
    for (std::size_t i = 0; i < pluck.partials.size(); ++i) {
        const Eigen::VectorXd own = x.segment<5>(6 + 5 * static_cast<Eigen::Index>(i));
        const double k = pluck.partials[i].number, b = std::exp(x(1)), tau = std::exp(x(3));
        const double f = k * std::exp(x(0)) * std::sqrt((1.0 + b * k * k) / (1.0 + b));
        for (Eigen::Index n = 0; n < count; ++n) {
            const double t = (static_cast<double>(n) + 0.5) / rate_hz;
            const double warped = t + x(2) * tau * (1.0 - std::exp(-t / tau));
            const double slower = std::exp(x(5)) * own(2);
            const double amplitude = std::hypot(own(3), own(4)), phase = std::atan2(own(4), own(3));
            samples(n) += own(0) * (std::exp(-own(2) * t) * std::cos(two_pi * f * warped + own(1)) +
                                    amplitude * std::exp(-slower * t) *
                                        std::cos(two_pi * f * (1.0 + x(4)) * warped + own(1) + phase));
        }
    }
    return samples;
}

/// Inverse of the whole Fisher information, by differences of the samples, without anything known.
double dense_bound_cents(const TwoTonePluck& pluck)
{
    const auto partials = static_cast<Eigen::Index>(pluck.partials.size());
    Eigen::VectorXd x(6 + 5 * partials), step(x.size());
    x.head<6>() << std::log(pluck.first_hz), std::log(pluck.inharmonicity), pluck.glide.amount,
        std::log(pluck.glide.time_s), pluck.split, std::log(pluck.decay_ratio);
    step.head<6>() << 1e-7, 1e-4, 1e-7, 1e-4, 1e-7, 1e-4;
    for (Eigen::Index i = 0; i < partials; ++i) {
        const TwoTonePartial& p = pluck.partials[static_cast<std::size_t>(i)];
        x.segment<5>(6 + 5 * i) << p.amplitude, 0.0, p.decay_rate, p.twin.real(), p.twin.imag();
        step.segment<5>(6 + 5 * i) << 1e-5 * p.amplitude, 1e-5, 1e-5, 1e-5, 1e-5;
    }
    Eigen::MatrixXd j(samples_of(pluck, x).size(), x.size());
    for (Eigen::Index u = 0; u < x.size(); ++u) {
        Eigen::VectorXd up = x, down = x;
        up(u) += 0.5 * step(u), down(u) -= 0.5 * step(u);
        j.col(u) = (samples_of(pluck, up) - samples_of(pluck, down)) / noise_rms;
    }
    return cents_per_neper * step(0) * std::sqrt((j.transpose() * j).inverse()(0, 0));
}

} // namespace

TEST_CASE("two-tone bound: for one tone it is that of cramer_rao_bound", "[twin]")
{
    const TwoTonePluck pluck = example(0.0);
    ToneKnowledge plain = knowledge_of_plain_tone();
    plain.log_b_sd = plain.decay_sd = ToneKnowledge::nothing;
    DampedStiffString string{.fundamental_hz = pluck.first_hz / std::sqrt(1.0 + pluck.inharmonicity),
                             .inharmonicity = pluck.inharmonicity};
    for (const auto& p : pluck.partials)
        string.partials.push_back({.number = p.number, .amplitude = p.amplitude, .decay_rate = p.decay_rate});
    const auto expected =
        cramer_rao_bound(string, {.sample_rate_hz = rate_hz, .to_s = pluck.length_s, .noise_rms = noise_rms});
    const auto bound = pitch_bound_cents(shared_information(pluck, plain));
    REQUIRE((bound && expected));
    const double expected_cents = cents_per_neper * expected->first_partial_sd_hz / pluck.first_hz;
    CHECK(*bound == Approx(expected_cents).epsilon(0.01)); // overlap of the partials and the glide's 1 cent
}

TEST_CASE("two-tone bound: is the inverse of the whole information of the samples", "[twin]")
{
    const TwoTonePluck pluck = example(0.2);
    const auto bound = pitch_bound_cents(shared_information(pluck, {}));
    REQUIRE(bound);
    // Partials that overlap a little, and derivatives by differences: 0.3 % seen.
    CHECK(*bound == Approx(dense_bound_cents(pluck)).epsilon(0.01));
}

TEST_CASE("two-tone bound: knowing more never makes it larger, and the step's is that of two pitches",
          "[property]")
{
    const TwoTonePluck pluck = example(0.2);
    const auto nothing = shared_information(pluck, {}), usual = shared_information(pluck, knowledge_of_fit()),
               plain = shared_information(pluck, knowledge_of_plain_tone());
    const auto widest = pitch_bound_cents(nothing), middle = pitch_bound_cents(usual),
               least = pitch_bound_cents(plain);
    REQUIRE((widest && middle && least));
    CHECK(*middle < *widest);
    CHECK(*least < 0.5 * *middle);
    const auto apart = step_bound_cents(usual, usual, ToneKnowledge::nothing),
               together = step_bound_cents(usual, usual, 0.2);
    REQUIRE((apart && together));
    CHECK(*apart == Approx(std::numbers::sqrt2 * *middle).epsilon(1e-6)); // two independent pitches; rounding
    CHECK(*together < *apart);
}
