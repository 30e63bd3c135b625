// SPDX-License-Identifier: MIT
#pragma once

#include "measure/tone_measurement.hpp"
#include "synth/random_source.hpp"
#include "synth/synthetic_noise.hpp"
#include "synth/synthetic_string.hpp"
#include "units/interval.hpp"

#include <cmath>
#include <cstdint>
#include <functional>
#include <optional>

namespace harpkeep::tests {

/// One synthetic pluck as a test describes it: no glide, one polarisation, unless it says otherwise.
struct ToneCase {
    SyntheticString string = generic_string(261.6);
    SyntheticPluck pluck{.glide_cents = 0.0};
    double rate_hz = 48000.0;
    double onset_s = 0.5, until_s = 2.5;
    std::optional<double> snr_db; ///< white, against the first half second
    std::uint64_t seed = 1;
    std::function<void(std::vector<double>&, RandomSource&)> disturb; ///< what else sounds
};

struct ToneSound {
    std::vector<double> samples;
    double noise_rms = 0.0;
};

inline ToneSound sound_of(const ToneCase& tone)
{
    RandomSource random(tone.seed);
    ToneSound sound{.samples = std::vector<double>(static_cast<std::size_t>(tone.until_s * tone.rate_hz))};
    const double energy = add_pluck(sound.samples, tone.rate_hz, tone.onset_s, tone.string, tone.pluck);
    if (tone.disturb) tone.disturb(sound.samples, random);
    if (!tone.snr_db) return sound;
    sound.noise_rms = std::sqrt(energy / (0.5 * tone.rate_hz)) * std::pow(10.0, -*tone.snr_db / 20.0);
    add_white_noise(sound.samples, sound.noise_rms, random);
    return sound;
}

inline std::optional<PluckMeasurement> measured(const std::vector<double>& samples, const ToneCase& tone)
{
    OctavePyramid pyramid(tone.rate_hz, 8.0);
    pyramid.push(std::vector<float>(samples.begin(), samples.end()));
    pyramid.finish();
    const double f1_hz = partial_frequency_hz(tone.string, 1);
    // A finder's guess is a cent or so off.
    return measure_tone(
        pyramid, {tone.onset_s, tone.until_s},
        {.frequency_hz = f1_hz * std::exp2(1.0 / 1200.0), .inharmonicity = tone.string.inharmonicity});
}

inline std::optional<PluckMeasurement> measured(const ToneCase& tone)
{
    return measured(sound_of(tone).samples, tone);
}

inline double off_cents(const PluckMeasurement& pluck, double true_hz)
{
    return cents_per_neper * std::log(pluck.frequency_hz / true_hz);
}

} // namespace harpkeep::tests
