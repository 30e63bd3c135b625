// SPDX-License-Identifier: MIT
#pragma once

#include "signal/sinking_pitch.hpp"

#include <Eigen/Dense>

#include <complex>
#include <limits>
#include <optional>
#include <vector>

namespace harpkeep::tests {

/// A partial that is two damped tones, A exp(-at + 2 pi i f T)[1 + r exp((1 - rho) at + 2 pi i split f T)],
/// with T the time warped by the glide.
struct TwoTonePartial {
    int number = 1;
    double amplitude = 0.0;    ///< |A| at the pluck
    double decay_rate = 0.0;   ///< a, 1/s
    std::complex<double> twin; ///< r
    double noise_rms = 0.0;    ///< of white noise that is as dense as the noise about this partial
};

/// A pluck: f_k = k f1 sqrt((1 + B k^2) / (1 + B)).
struct TwoTonePluck {
    double first_hz = 0.0, inharmonicity = 0.0;
    PitchGlide glide; ///< start_s 0; time_s > 0
    double split = 0.0, decay_ratio = 1.0;
    std::vector<TwoTonePartial> partials;
    double sample_rate_hz = 48000.0, from_s = 0.0, length_s = 1.7; ///< heard from then on, up to length_s
};

/// What an estimator knows beforehand: standard deviations. 0: exactly; infinity: nothing.
struct ToneKnowledge {
    static constexpr double nothing = std::numeric_limits<double>::infinity();
    double log_b_sd = nothing;
    double glide_sd = nothing, log_time_sd = nothing;
    double split_sd = nothing, log_ratio_sd = nothing;
    double twin_sd = nothing;  ///< real and imaginary part of r, each
    double decay_sd = nothing; ///< relative
    double deviation_sd = 0.0; ///< of a partial from the series, relative
};

/// What src/signal/tone_problem.cpp expects; twins at -14 dB.
[[nodiscard]] ToneKnowledge knowledge_of_fit();
/// One tone that does not glide.
[[nodiscard]] ToneKnowledge knowledge_of_plain_tone();

/// ln f1, ln B, glide, ln of its time, split, ln of the ratio of decays: what is left of the information on
/// them once all that is each partial's own has been found as well.
using SharedInformation = Eigen::Matrix<double, 6, 6>;

/// Notes  Fisher information of the samples in noise that is white about each partial, plus that of what is
/// known
///        beforehand (a Bayesian or hybrid bound: Van Trees 1968, from memory). Partials do not overlap. The
///        bound is that of small errors: a fit that takes a split upwards for one downwards does worse.
[[nodiscard]] SharedInformation shared_information(const TwoTonePluck& pluck, const ToneKnowledge& knowledge);

/// Smallest standard deviation of the pitch, or nothing where the samples do not determine it.
[[nodiscard]] std::optional<double> pitch_bound_cents(const SharedInformation& information);

/// Smallest standard deviation of the step between two plucks of one string whose B goes with 1 / L^2 to
/// within `log_b_ratio_sd`.
[[nodiscard]] std::optional<double> step_bound_cents(const SharedInformation& lower,
                                                     const SharedInformation& upper, double log_b_ratio_sd);

} // namespace harpkeep::tests
