// SPDX-License-Identifier: MIT
#pragma once

#include "harp/position.hpp"
#include "harp/string_place.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep::tests {

/// One real pluck at three pitches that are a known step apart: what a string would give in flat, natural and
/// sharp if its B stayed the same.
struct StepTriple {
    std::string name;  ///< set and note
    StringPlace place; ///< whose natural the note is; a recording of C sharp is lowered to C
    double sample_rate_hz = 0.0;
    std::vector<double> flat, natural, sharp;
    double natural_hz = 0.0;        ///< nominal: up to 31 cents off
    double lower_error_cents = 0.0; ///< true size of the step minus 100
    double upper_error_cents = 0.0;
};

/// Which rms of a pluck its signal-to-noise ratio counts. Over the whole recording the tail counts as well,
/// so that the same ratio means less noise: 2 to 8 dB for long notes.
enum class SnrReference { first_half_second, whole_recording };

/// What is added to each position of a triple by itself.
struct RoomNoise {
    double snr_db = 30.0; ///< rms of the pluck against pink noise in the whole band
    SnrReference reference = SnrReference::first_half_second;
    double hum_below_noise_db = 6.0; ///< rms of mains hum against that of the noise
    double hum_hz = 50.0;
};

/// Triples of every recording of the sets, step errors drawn within +-12 cents.
///
/// Given   sets  e.g. {"wav", "freepats", "fluid"}: the three that are different recordings
///         longest_s  of each recording that is used
[[nodiscard]] std::vector<StepTriple> real_step_triples(const std::vector<std::string>& sets,
                                                        std::uint64_t seed, double longest_s = 4.0);

/// Triples sounded one after another on one harp.
struct TripleRecording {
    double sample_rate_hz = 0.0;
    std::vector<float> samples;
    struct Sounded {
        double start_s;
        StringPlace place;
        Position position;
    };
    std::vector<Sounded> truth; ///< in order of time
};

/// The triples' plucks joined to one recording in one room, every pluck as loud as the others.
///
/// Given    triples  of one sample rate, lowest string first
///          pass_by_pass  all flat, all natural, all sharp; else the three positions of each string in turn
/// Notes    The level of a pluck is its rms over the first half second; each is faded out before the next.
[[nodiscard]] TripleRecording sound_triples(const std::vector<StepTriple>& triples, bool pass_by_pass,
                                            const RoomNoise& noise, std::uint64_t seed);

/// Adds a room to one position; without noise only the lead-in.
[[nodiscard]] std::vector<double> in_a_room(const std::vector<double>& pluck, double sample_rate_hz,
                                            const std::optional<RoomNoise>& noise, double lead_in_s,
                                            std::uint64_t seed);

} // namespace harpkeep::tests
