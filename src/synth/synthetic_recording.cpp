// SPDX-License-Identifier: MIT
#include "synth/synthetic_recording.hpp"

#include "base/expects.hpp"
#include "synth/synthetic_disturbance.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double finger_before_pluck_s = 0.05;
constexpr double rms_time_s = 0.5; // of the definition of the signal-to-noise ratio

double from_db(double level_db)
{
    return std::pow(10.0, level_db / 20.0);
}

std::vector<TrueSound> sorted_by_start(std::span<const SoundEvent> events)
{
    std::vector<TrueSound> truth;
    for (const SoundEvent& event : events) truth.push_back({.event = event});
    std::stable_sort(truth.begin(), truth.end(),
                     [](const auto& a, const auto& b) { return a.event.start_s < b.event.start_s; });
    return truth;
}

/// A string cannot sound twice at once: whoever plucks it again stops it first.
void stop_before_plucked_again(std::vector<TrueSound>& truth)
{
    for (std::size_t i = 0; i < truth.size(); ++i) {
        SoundEvent& event = truth[i].event;
        if (event.kind != SoundKind::pluck) continue;
        const auto again = std::find_if(
            truth.begin() + static_cast<std::ptrdiff_t>(i) + 1, truth.end(), [&](const TrueSound& later) {
                return later.event.kind == SoundKind::pluck && later.event.place == event.place;
            });
        if (again == truth.end()) continue;
        const double free_s = std::max(0.0, again->event.start_s - event.start_s - finger_before_pluck_s);
        event.pluck.damp_after_s = std::min(event.pluck.damp_after_s.value_or(free_s), free_s);
    }
}

void add_sound(std::span<double> mix, const SyntheticHarp& harp, double sample_rate_hz, TrueSound& sound,
               RandomSource& random)
{
    const SoundEvent& event = sound.event;
    switch (event.kind) {
    case SoundKind::pluck: {
        const auto index = string_index_of(harp.layout, event.place);
        HARPKEEP_EXPECTS(index.has_value());
        const SyntheticString string = string_in_position(harp, *index, event.position);
        const double energy = add_pluck(mix, sample_rate_hz, event.start_s, string, event.pluck);
        sound.frequency_hz = partial_frequency_hz(string, 1);
        sound.inharmonicity = string.inharmonicity;
        sound.rms = std::sqrt(energy / (rms_time_s * sample_rate_hz));
        break;
    }
    case SoundKind::knock:
        add_knock(mix, sample_rate_hz, event.start_s, event.level_dbfs, random);
        break;
    case SoundKind::cough:
        add_cough(mix, sample_rate_hz, event.start_s, event.level_dbfs, random);
        break;
    case SoundKind::speech:
        add_speech(mix, sample_rate_hz, event.start_s, event.duration_s, event.level_dbfs, random);
        break;
    }
}

double median_rms(const std::vector<TrueSound>& truth)
{
    std::vector<double> values;
    for (const TrueSound& sound : truth)
        if (sound.event.kind == SoundKind::pluck) values.push_back(sound.rms);
    if (values.empty()) return 0.0;
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

/// Gain, offset and the limits of the converter.
void write_samples(const std::vector<double>& mix, const RecordingSettings& settings,
                   SyntheticRecording& recording)
{
    const double gain = from_db(settings.gain_db);
    std::size_t clipped = 0;
    recording.samples.reserve(mix.size());
    for (const double sample : mix) {
        const double wanted = gain * sample + settings.dc_offset;
        const double kept = std::clamp(wanted, -settings.clip_level, settings.clip_level);
        clipped += kept != wanted;
        recording.samples.push_back(static_cast<float>(kept));
    }
    recording.clipped_share =
        static_cast<double>(clipped) / static_cast<double>(std::max<std::size_t>(1, mix.size()));
}

} // namespace

SyntheticRecording render_recording(const SyntheticHarp& harp, std::span<const SoundEvent> events,
                                    const RecordingSettings& settings)
{
    HARPKEEP_EXPECTS(settings.sample_rate_hz > 0.0 && settings.clip_level > 0.0);
    SyntheticRecording recording{.sample_rate_hz = settings.sample_rate_hz, .truth = sorted_by_start(events)};
    stop_before_plucked_again(recording.truth);
    const double last_s = recording.truth.empty() ? 0.0 : recording.truth.back().event.start_s;
    const double length_s = settings.length_s.value_or(last_s + 2.5);
    std::vector<double> mix(static_cast<std::size_t>(std::llround(length_s * settings.sample_rate_hz)), 0.0);

    RandomSource random(settings.seed);
    for (TrueSound& sound : recording.truth) add_sound(mix, harp, settings.sample_rate_hz, sound, random);
    recording.median_pluck_rms = median_rms(recording.truth);
    if (settings.snr_db) {
        recording.noise_rms = recording.median_pluck_rms * from_db(-*settings.snr_db);
        // Independent noises: their powers add up.
        add_pink_noise(mix, settings.sample_rate_hz, recording.noise_rms * std::sqrt(settings.pink_share),
                       random);
        add_white_noise(mix, recording.noise_rms * std::sqrt(1.0 - settings.pink_share), random);
    }
    if (settings.hum) add_hum(mix, settings.sample_rate_hz, *settings.hum, random);
    write_samples(mix, settings, recording);
    return recording;
}

} // namespace harpkeep
