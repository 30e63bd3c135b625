// SPDX-License-Identifier: MIT
#pragma once

#include "signal/octave_pyramid.hpp"
#include "signal/real_fft.hpp"

#include <map>
#include <vector>

namespace harpkeep {

/// A partial seen in a spectrum: its number and where it lies, to a few cents.
struct PartialSighting {
    int number = 1;
    double frequency_hz = 0.0;
    double rise_db = 0.0; ///< above what sounded before the pluck, and above the noise
};

/// A pitch that a new sound may have, to a few cents.
struct PitchCandidate {
    double frequency_hz = 0.0;  ///< of the first partial, whether it is there or not
    double inharmonicity = 0.0; ///< B
    double score = 0.0; ///< 0..1: share of the new peaks it explains, times share of its partials seen
    std::vector<PartialSighting> partials;
};

/// Names the pitches that a pluck may have from the spectrum that came with it.
///
/// Notes     A candidate must explain the peaks that rose at the pluck, and its own partials must be there:
/// so
///           neither an octave below (its odd partials are missing) nor above (half of the peaks stay
///           unexplained) wins, with or without a first partial. What already sounded before the pluck counts
///           only as far as it rose.
class PitchFinder {
  public:
    /// Given    the pluck at onset_s; no sample after until_s is looked at
    /// Returns  up to six candidates, best first; empty when nothing tonal began there
    [[nodiscard]] std::vector<PitchCandidate> operator()(const OctavePyramid& sound, double onset_s,
                                                         double until_s);

  private:
    [[nodiscard]] std::vector<PartialSighting> new_peaks(const OctavePyramid& sound, double onset_s,
                                                         double until_s, double& blur_scale);
    RealFft& transform(std::size_t length);

    std::map<std::size_t, RealFft> transforms_; ///< plans, kept between plucks
};

/// Typical inharmonicity at a pitch, the start of a search: 1e-4 in the bass, rising above 300 Hz.
[[nodiscard]] double typical_inharmonicity(double frequency_hz);

} // namespace harpkeep
