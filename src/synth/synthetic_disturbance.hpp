// SPDX-License-Identifier: MIT
#pragma once

#include "synth/random_source.hpp"

#include <span>

namespace harpkeep {

/// Sounds that are no pluck. Each is added to `mix` from `start_s` on; `level_dbfs` is its rms over its
/// length.

/// A knock on wood: a handful of strongly damped modes between 80 and 1000 Hz and a click, over in 0.15 s.
void add_knock(std::span<double> mix, double sample_rate_hz, double start_s, double level_dbfs,
               RandomSource& random);

/// Two bursts of noise with the resonances of a throat, over in 0.5 s.
void add_cough(std::span<double> mix, double sample_rate_hz, double start_s, double level_dbfs,
               RandomSource& random);

/// Voiced syllables: harmonics of a gliding pitch between 90 and 220 Hz under moving formants, four syllables
/// a second with hissed consonants between them.
void add_speech(std::span<double> mix, double sample_rate_hz, double start_s, double duration_s,
                double level_dbfs, RandomSource& random);

} // namespace harpkeep
