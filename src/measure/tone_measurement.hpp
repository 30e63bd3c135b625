// SPDX-License-Identifier: MIT
#pragma once

#include "measure/pitch_candidates.hpp"
#include "measure/reading.hpp"
#include "signal/octave_pyramid.hpp"

#include <optional>

namespace harpkeep {

inline constexpr double shortest_decay_s = 0.005; // no string dies sooner: 1/e of the amplitude

/// Where in the sound a pluck may be measured.
struct ToneSpan {
    double onset_s = 0.0;
    double until_s = 0.0; ///< the next pluck begins, or the sound ends
};

/// Measures one pluck: fits its partials one by one, the glide they share, and the series they form.
///
/// Given    guess   the pitch to a few cents (PitchFinder)
/// Returns  the measurement, with its doubts; nothing when no partial could be followed
[[nodiscard]] std::optional<PluckMeasurement> measure_tone(const OctavePyramid& sound, const ToneSpan& span,
                                                           const PitchCandidate& guess);

/// How long the sound is that a measurement rests on, and the window through which its partials were seen.
struct FitExtent {
    double length_s = 0.0, window_s = 0.0;
};

/// Both about, as they follow from the pitch and from how fast the lower partials die; a pluck that the next
/// one cut short was measured over less.
[[nodiscard]] FitExtent likely_extent(const PluckMeasurement& pluck);

} // namespace harpkeep
