// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/position.hpp"
#include "harp/string_place.hpp"
#include "units/quantity.hpp"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace harpkeep {

/// How the strings are shortened: two discs worked by seven pedals, one disc worked by seven pedals, or a
/// lever of its own for each string.
enum class HarpKind { pedal, single, lever };

[[nodiscard]] std::string_view kind_name(HarpKind kind);
[[nodiscard]] std::optional<HarpKind> kind_from_name(std::string_view name);

/// One string of a harp. `open_alteration` is the accidental of the open string in semitones: -1 for every
/// string of a pedal harp (C-flat major), for a lever harp what it is tuned in.
struct HarpString {
    StringPlace place;
    int open_alteration = -1;
    bool has_natural_disc = true; ///< the only disc of a single-action harp, or the lever
    bool has_sharp_disc = true;   ///< pedal harps only

    bool operator==(const HarpString&) const = default;
};

/// The strings of one harp, from the lowest to the highest.
struct HarpLayout {
    HarpKind kind = HarpKind::pedal;
    std::vector<HarpString> strings;

    bool operator==(const HarpLayout&) const = default;
};

/// What the open strings of a lever or single-action harp are tuned in (common practice).
enum class OpenTuning { e_flat_major, c_major, f_major, c_flat_major };

[[nodiscard]] std::string_view open_tuning_name(OpenTuning tuning);
[[nodiscard]] std::optional<OpenTuning> open_tuning_from_name(std::string_view name);
/// Accidental of each open string, indexed by Letter.
[[nodiscard]] std::array<int, 7> open_alterations(OpenTuning tuning);

/// What a layout is made from. `lowest` and `highest` bound a custom range; else `string_count` chooses a
/// usual one: 47 (7C to 0G), 46 (7D to 0G), 44 (7D to 1E), 40 (6A to 1E) for pedal harps; lever
/// harps hang `string_count` strings down from 1C (35 and more) or 1A. Places in `without_discs` have none;
/// on a concert pedal harp these are 7C and 7D when nothing else is said, as sources agree on those two only.
struct LayoutRequest {
    HarpKind kind = HarpKind::pedal;
    int string_count = 47;
    std::optional<StringPlace> lowest;
    std::optional<StringPlace> highest;
    std::optional<OpenTuning> tuning;
    std::optional<std::vector<StringPlace>> without_discs;
};

/// Strings of a harp of this kind of which nobody said how many it has: 47 pedal, 43 single, 34 lever (common
/// practice, no source: a concert pedal harp, and usual smaller ones of the other kinds).
[[nodiscard]] int usual_string_count(HarpKind kind);

/// Returns  the layout, or which of the wishes cannot be and what can (1 to 60 strings, places in order)
[[nodiscard]] Result<HarpLayout> make_layout(const LayoutRequest& request);

/// The string at `place`, if the harp has one.
[[nodiscard]] const HarpString* find_string(const HarpLayout& layout, StringPlace place);

/// The positions in which a string can sound, lowest first. A string without discs has its open one only.
[[nodiscard]] std::vector<Position> positions_of(HarpKind kind, const HarpString& string);

/// Accidental of a string in a position, in semitones: -1 flat, 0 natural, +1 sharp.
[[nodiscard]] int alteration_of(const HarpString& string, Position position);

/// The steps a string has: none without discs.
[[nodiscard]] std::vector<Step> steps_of(HarpKind kind, const HarpString& string);

/// The two positions a step lies between, lower first.
[[nodiscard]] std::array<Position, 2> positions_of_step(HarpKind kind, Step step);

} // namespace harpkeep
