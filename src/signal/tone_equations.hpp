// SPDX-License-Identifier: MIT
#pragma once

#include "signal/tone_fit.hpp"

#include <Eigen/Dense>

#include <complex>
#include <vector>

namespace harpkeep {

/// What all partials of a tone share.
struct SharedTone {
    double log_first = 0.0; ///< ln f1 of the series
    double log_b = 0.0;
    double glide_amount = 0.0;   ///< relative
    double log_glide_time = 0.0; ///< ln s
    double split = 0.0;
    double log_decay_ratio = 0.0;
};

/// What each partial has for itself.
struct OwnTone {
    double frequency_hz = 0.0;
    double decay_rate = 0.0;
    std::complex<double> twin; ///< amplitude of the twin against the main tone's, at time 0
};

/// The values of one band, every other one of a finely spaced band, and what is noise in them.
struct ToneValues {
    int number = 1;
    double reference_hz = 0.0;
    double first_s = 0.0, hop_s = 0.0; ///< since the glide's start
    double noise_power = 0.0;          ///< of one value
    double correlated = 1.0;           ///< values that count as one
    double energy = 0.0;               ///< sum of |value|^2
    Eigen::ArrayXd real, imaginary;    ///< the values
};

[[nodiscard]] ToneValues tone_values(const TonePartial& partial, double start_s);

/// Order of the unknowns of one partial: its own five, its frequency, then the four that it shares.
namespace unknown {
inline constexpr Eigen::Index amplitude = 0, decay = 2, twin = 3, frequency = 5, glide = 6, glide_time = 7,
                              split = 8, decay_ratio = 9, count = 10, own = 5, outer = 5;
}

/// Gauss-Newton's equations of one partial, in units of the noise.
struct ToneEquations {
    Eigen::Matrix<double, unknown::count, unknown::count> matrix;
    Eigen::Matrix<double, unknown::count, 1> pull;
    std::complex<double> amplitude; ///< best for this shape, at the first value
    double residual_energy = 0.0;
};

/// Notes  All derivatives are 1, t, or the glide's G(t), G'(ln time) times the main tone or its twin: one
/// pass
///        sums the moments, from which every entry follows.
[[nodiscard]] ToneEquations tone_equations(const ToneValues& values, const OwnTone& own,
                                           const SharedTone& shared, bool with_twin);

} // namespace harpkeep
