// SPDX-License-Identifier: MIT
#pragma once

#include "measure/check_assembly.hpp"
#include "synth/synthetic_playing.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep::tests {

/// A whole harp, sounded once, as a test describes it.
struct WholeHarpCase {
    PlayingWay way = PlayingWay::pass_by_pass;
    Direction direction = Direction::low_to_high;
    LayoutRequest layout;
    std::optional<double> snr_db = 30.0;
    bool mishaps = true; ///< skips, repeats, wrong strings, knocks, a cough, speech, hum, sympathetic strings
    double harp_offset_cents = 0.0;
    double open_offset_sd_cents = 4.0;
    int untuned_strings = 0; ///< drawn by lot, a quarter-tone sharp or flat
    Hertz a4{440.0};         ///< that the harp is tuned to
    Hertz told_a4{440.0};    ///< that the program is told
    std::uint64_t seed = 1;
};

/// What a check of a synthetic recording found, against what is true.
struct CheckScore {
    int measurable_steps = 0;              ///< both positions sounded at their turn
    int found_steps = 0;                   ///< of these
    int other_steps = 0;                   ///< measured though a position did not sound at its turn
    int wrong_places = 0;                  ///< trusted readings at another string or position than sounded
    int doubted_wrong = 0;                 ///< the same, but not trusted
    int skipped_read = 0;                  ///< trusted readings where nothing was sounded
    int skipped_not_named = 0;             ///< left-out strings that `missing` does not name
    int noises_read = 0;                   ///< trusted readings of knocks, coughs, speech or nothing at all
    std::vector<double> step_errors_cents; ///< measured minus true
    std::vector<double> step_uncertainties_cents, step_freedoms;
    std::vector<std::string> complaints; ///< one line for each of the above that should not be
    double sound_s = 0.0;
    double work_s = 0.0; ///< processor time of the stream, the placement and the steps
};

struct WholeHarp {
    SyntheticHarp harp;
    Performance performance;
    SyntheticRecording recording;
};

[[nodiscard]] std::vector<PlannedPluck> plan_of(const HarpLayout& layout, PlayingWay way,
                                                Direction direction);
/// The harp and what is played, no sound yet.
[[nodiscard]] WholeHarp play_whole_harp(const WholeHarpCase& settings);
[[nodiscard]] WholeHarp make_whole_harp(const WholeHarpCase& settings);

/// Listens to a recording in pieces of `piece` samples.
struct HeardSounds {
    std::vector<HeardPluck> plucks;
    std::vector<IgnoredSound> ignored;
};
[[nodiscard]] HeardSounds hear(const std::vector<float>& samples, double rate_hz, std::size_t piece = 4096);

[[nodiscard]] CheckScore score_check(const WholeHarp& truth, const CheckResult& check);
/// Listens, places and scores.
[[nodiscard]] CheckScore run_check(const WholeHarp& whole, Hertz told_a4 = Hertz{440.0});
/// The same with a harp and a recording made for it.
[[nodiscard]] CheckScore run_case(const WholeHarpCase& settings);

/// Many checks as one.
[[nodiscard]] CheckScore sum_of(const std::vector<CheckScore>& scores);
/// Of the absolute errors.
[[nodiscard]] double step_error_quantile_cents(const CheckScore& score, double share);
/// Share of the steps whose true error lies within the 95 % interval.
[[nodiscard]] double step_coverage(const CheckScore& score);
[[nodiscard]] std::string summary_of(const CheckScore& score);

} // namespace harpkeep::tests
