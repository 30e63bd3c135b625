// SPDX-License-Identifier: MIT
#pragma once

#include "signal/real_fft.hpp"
#include "signal/sample_history.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// Levels of a Hann-windowed span of sound, padded with zeros to the transform's length.
struct LevelSpectrum {
    double bin_hz = 0.0;
    double resolution_hz = 0.0;  ///< 1 / length of the span: half the width of a peak's main lobe
    std::vector<float> level_db; ///< a sinusoid of amplitude 1 reads 0 dB
};

/// A maximum of a spectrum.
struct SpectralPeak {
    double frequency_hz = 0.0;
    double level_db = 0.0;
    double above_floor_db = 0.0; ///< above the median level around it
};

/// Given    at least 16 samples and no more than `fft` takes
[[nodiscard]] LevelSpectrum level_spectrum(std::span<const float> samples, double rate_hz, RealFft& fft);

/// Maxima between two frequencies that stand `least_above_floor_db` over the median level around them.
///
/// Notes     Vertex of the parabola through three levels in dB, zero-padded at least twofold.
/// Accuracy  0.002 of the resolution for a lone noise-free tone (tests/src/signal/spectrum_peaks_test.cpp)
/// Reference J. O. Smith, Spectral Audio Signal Processing, "Quadratic Interpolation of Spectral Peaks"
[[nodiscard]] std::vector<SpectralPeak> spectral_peaks(const LevelSpectrum& spectrum, double from_hz,
                                                       double to_hz, double least_above_floor_db);

/// Highest level within `half_width_hz` of a frequency.
[[nodiscard]] double level_near(const LevelSpectrum& spectrum, double frequency_hz, double half_width_hz);

} // namespace harpkeep
