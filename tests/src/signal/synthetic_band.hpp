// SPDX-License-Identifier: MIT
#pragma once

#include "signal/baseband.hpp"
#include "signal/sinking_pitch.hpp"
#include "synth/random_source.hpp"

#include <cmath>
#include <cstdint>
#include <numbers>
#include <span>
#include <vector>

namespace harpkeep::tests {

/// One damped tone of a test, with or without glide.
struct BandTone {
    double frequency_hz = 440.0;
    double amplitude = 0.1;
    double decay_rate = 1.0;
    double phase_rad = 0.0;
    PitchGlide glide;
};

struct BandSettings {
    double reference_hz = 440.0;
    double length_s = 3.0;
    double window_s = 0.1;
    double noise_rms = 0.0; ///< white, of the samples
    double rate_hz = 4000.0;
    std::uint64_t seed = 1;
};

/// Not inlined: GCC 12 then sees an empty vector and warns of an overflow that cannot happen.
[[gnu::noinline]] inline void append_to(SampleHistory& history, std::span<const float> samples)
{
    history.append(samples);
}

/// These tones and noise.
inline std::vector<float> synthetic_samples(std::span<const BandTone> tones, const BandSettings& settings)
{
    RandomSource random(settings.seed);
    const auto length = static_cast<std::size_t>(settings.length_s * settings.rate_hz);
    std::vector<float> samples(length);
    for (std::size_t n = 0; n < length; ++n) {
        const double t = static_cast<double>(n) / settings.rate_hz;
        double value = settings.noise_rms > 0.0 ? settings.noise_rms * random.normal() : 0.0;
        for (const BandTone& tone : tones) {
            const double turns = tone.frequency_hz * t + tone.glide.turns(tone.frequency_hz, t);
            value += tone.amplitude * std::exp(-tone.decay_rate * t) *
                     std::cos(2.0 * std::numbers::pi * std::fmod(turns, 1.0) + tone.phase_rad);
        }
        samples[n] = static_cast<float>(value);
    }
    return samples;
}

/// The band that extract_baseband cuts out of a sound.
inline Baseband band_of(std::span<const float> samples, const BandSettings& settings)
{
    SampleHistory history(samples.size());
    append_to(history, samples);
    return *extract_baseband(
        history, settings.rate_hz,
        {.reference_hz = settings.reference_hz, .to_s = settings.length_s, .window_s = settings.window_s});
}

inline Baseband synthetic_band(std::span<const BandTone> tones, const BandSettings& settings)
{
    return band_of(synthetic_samples(tones, settings), settings);
}

/// Rms of the noise in such a band: the sum of window-weighted samples, normalised to a modulus of 1 for a
/// tone of amplitude 1; a Blackman-Harris window passes 2.004 bins of noise.
inline double noise_in_band(const BandSettings& settings)
{
    return 2.0 * settings.noise_rms * std::sqrt(2.0044 / (settings.window_s * settings.rate_hz));
}

} // namespace harpkeep::tests
