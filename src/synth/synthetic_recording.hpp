// SPDX-License-Identifier: MIT
#pragma once

#include "synth/synthetic_harp.hpp"
#include "synth/synthetic_noise.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

enum class SoundKind { pluck, knock, cough, speech };

/// One sound of a recording. A pluck names what really sounds, which need not be what the player meant.
struct SoundEvent {
    SoundKind kind = SoundKind::pluck;
    double start_s = 0.0;
    StringPlace place;                  ///< plucks
    Position position = Position::flat; ///< plucks
    SyntheticPluck pluck;               ///< plucks
    bool mistake = false;               ///< a pluck that the player did not mean
    double level_dbfs = -30.0;          ///< other sounds
    double duration_s = 2.0;            ///< speech
};

/// The microphone and the room.
struct RecordingSettings {
    double sample_rate_hz = 48000.0;
    std::optional<double> length_s; ///< nothing: 2.5 s past the last start
    std::optional<double> snr_db;   ///< rms of the median pluck over its first 0.5 s against the noise in the
                                    ///< whole band; nothing: no noise
    double pink_share = 0.5;        ///< of the power of the noise; the rest is white
    std::optional<MainsHum> hum;
    double dc_offset = 0.0;
    double gain_db = 0.0;    ///< of everything above but the offset
    double clip_level = 1.0; ///< what goes beyond is cut off
    std::uint64_t seed = 1;
};

/// What is true of one sound of a recording.
struct TrueSound {
    SoundEvent event;           ///< damp_after_s filled in when the same string is plucked again
    double frequency_hz = 0.0;  ///< plucks: settled first partial f1
    double inharmonicity = 0.0; ///< plucks: B
    double rms = 0.0;           ///< plucks: over the first 0.5 s, before gain
};

struct SyntheticRecording {
    double sample_rate_hz = 48000.0;
    std::vector<float> samples;
    std::vector<TrueSound> truth; ///< in the order of their starts
    double median_pluck_rms = 0.0;
    double noise_rms = 0.0;
    double clipped_share = 0.0; ///< share of samples cut off
};

/// Renders the events on a harp.
///
/// Given   events  in any order; the place and position of each pluck exist on the harp
/// Notes   A finger stops its string 0.05 s before it plucks it again; other strings ring on unless
/// damp_after_s
///         says otherwise.
[[nodiscard]] SyntheticRecording render_recording(const SyntheticHarp& harp,
                                                  std::span<const SoundEvent> events,
                                                  const RecordingSettings& settings);

} // namespace harpkeep
