// SPDX-License-Identifier: MIT
#pragma once

#include "signal/baseband.hpp"
#include "signal/sinking_pitch.hpp"

#include <optional>
#include <vector>

namespace harpkeep {

/// One damped sinusoid found in a band.
struct PartialFit {
    double frequency_hz = 0.0;       ///< settled, when a glide was taken off
    double noise_variance_hz2 = 0.0; ///< of frequency_hz, what the noise beside the partial leaves
    double model_variance_hz2 = 0.0; ///< what beats and other bends of the phase leave besides
    double decay_rate = 0.0;         ///< alpha, 1/s
    double level = 0.0;              ///< amplitude at the start of the band
    double noise_level = 0.0;        ///< rms of the noise in the band
    double residual_level = 0.0;     ///< rms of what the damped sinusoid leaves over, weighted as the fit
    double information = 0.0;        ///< on the phase, 1/rad^2
    std::vector<double> times_s;     ///< absolute
    std::vector<double> weights;     ///< on the phase, 1/rad^2, thinned for the correlation of neighbours
    std::vector<double> phase_rad;   ///< what a steady tone leaves over: residual, and the glide taken off
    PitchGlide taken_off;            ///< before it was fitted
};

/// What is known before a fit.
struct PartialSearch {
    double reach_hz = 1.0;    ///< how far from the band's reference the partial may lie
    double noise_level = 0.0; ///< rms of the noise in such a band beside the partial, > 0
    double typical_decay_rate =
        0.0; ///< alpha expected, 1/s: leads where the noise hides the decay; 0: unknown
};

/// Fits one damped sinusoid to a band.
///
/// Returns  the fit, or nothing when the band does not stand out of the noise
/// Notes    The frequency is where the band's spectrum, weighted with exp(-0.7 alpha t), is strongest. With
///          alpha itself as weight that is the maximum likelihood fit in white noise; the somewhat longer
///          window costs 6.5 % of standard deviation and keeps apart what beats. alpha follows from the
///          centroid of the energy. Both move smoothly with the sound: no threshold on a beating envelope
///          that could jump.
/// Accuracy  1.1 times the Cramer-Rao bound (tests/src/signal/partial_fit_test.cpp)
[[nodiscard]] std::optional<PartialFit> fit_partial(const Baseband& band, const PartialSearch& search);

/// Fits it again with a glide taken off, starting from an earlier fit of the same band.
///
/// Given    expected_hz, reach_hz  where the settled partial lies, and how far from there at most
/// Returns  the fit, or nothing when the strongest frequency lies elsewhere
[[nodiscard]] std::optional<PartialFit> refit_partial(const Baseband& band, const PartialFit& before,
                                                      double expected_hz, double reach_hz,
                                                      const PitchGlide& glide);

} // namespace harpkeep
