// SPDX-License-Identifier: MIT
#pragma once

#include "synth/random_source.hpp"

#include <span>

namespace harpkeep {

/// Adds Gaussian noise of a flat spectrum whose rms over `mix` is exactly `rms`.
void add_white_noise(std::span<double> mix, double rms, RandomSource& random);

/// Adds Gaussian noise whose power falls by 3 dB an octave above 10 Hz, whose rms over `mix` is exactly
/// `rms`.
///
/// Notes     First-order sections, their poles two octaves apart and a zero an octave above each pole: on
/// average
///           1/f, with a ripple.
/// Accuracy  octave bands from 63 Hz to 8 kHz hold equal power within 1 dB
/// (tests/src/synth/synthetic_noise_test.cpp)
void add_pink_noise(std::span<double> mix, double sample_rate_hz, double rms, RandomSource& random);

/// Mains hum: the mains frequency and its harmonics, odd ones strong, even ones 10 dB weaker, falling as 1/k.
struct MainsHum {
    double frequency_hz = 50.0;
    double level_dbfs = -60.0; ///< rms of the whole
    int harmonics = 9;
};
void add_hum(std::span<double> mix, double sample_rate_hz, const MainsHum& hum, RandomSource& random);

} // namespace harpkeep
