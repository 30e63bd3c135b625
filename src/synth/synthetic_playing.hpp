// SPDX-License-Identifier: MIT
#pragma once

#include "synth/synthetic_recording.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// One pluck as the player means it. Plucks of one group follow each other without moving a pedal of many
/// strings.
struct PlannedPluck {
    std::size_t string_index = 0;
    Position position = Position::flat;
    int group = 0;

    bool operator==(const PlannedPluck&) const = default;
};

enum class Direction { low_to_high, high_to_low };

/// The strings that have this position, one after another.
[[nodiscard]] std::vector<PlannedPluck> plan_pass(const HarpLayout& layout, Position position,
                                                  Direction direction, int group = 0);
/// All flat, then all natural, then all sharp (or open, engaged), each pass a group.
[[nodiscard]] std::vector<PlannedPluck> plan_pass_by_pass(const HarpLayout& layout, Direction direction);
/// Every position of a string, then the next string.
[[nodiscard]] std::vector<PlannedPluck> plan_string_by_string(const HarpLayout& layout, Direction direction);
/// For each pedal D C B E F G A: its strings flat, then natural, then sharp, each of these a group.
[[nodiscard]] std::vector<PlannedPluck> plan_pedal_by_pedal(const HarpLayout& layout, Direction direction);

/// How often things go wrong in one recording, each at a place drawn by lot.
struct Mishaps {
    int skipped = 0;     ///< the string is left out
    int repeated = 0;    ///< the string is plucked twice
    int corrected = 0;   ///< a neighbour is plucked first, then the right string
    int uncorrected = 0; ///< a neighbour is plucked instead
    int knocks = 0;
    int coughs = 0;
    int talks = 0; ///< two to three seconds of speech, during which nothing is plucked
};

struct PlayingSettings {
    double first_s = 1.0;
    double gap_s = 1.7; ///< from pluck to pluck
    double gap_spread_s = 0.15;
    double between_groups_s = 2.0;      ///< further, to move pedals; all strings are stilled then
    std::optional<double> damp_after_s; ///< nothing: strings ring until the group ends
    double level_dbfs = -24.0;
    double level_sd_db = 2.0;
    double plucking_point = 0.31;
    double plucking_point_sd = 0.03;
    double lowest_glide_cents = 0.4;
    double highest_glide_cents = 2.0;
    std::optional<SecondPolarisation> second_polarisation; ///< its split and level vary from pluck to pluck
    std::optional<double> sympathetic_db; ///< level of strings that share a partial with the plucked one
    Mishaps mishaps;
    std::uint64_t seed = 1;
};

struct Performance {
    std::vector<SoundEvent> events;
    std::vector<PlannedPluck>
        skipped; ///< meant, but nothing sounds (skipped, or another string in its stead)
};

/// Plays a plan: times, the small differences from pluck to pluck, the mishaps.
///
/// Given   plan  more plucks than mishaps
[[nodiscard]] Performance play(const SyntheticHarp& harp, std::span<const PlannedPluck> plan,
                               const PlayingSettings& settings);

} // namespace harpkeep
