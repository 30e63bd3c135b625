// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/harp_layout.hpp"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace harpkeep {

/// The order in which a guided check goes through the harp.
enum class CheckWay {
    pass_by_pass,     ///< every string flat, then every string natural, then every string sharp
    string_by_string, ///< each string through its positions before the next
    pedal_by_pedal,   ///< each letter through its positions in all octaves before the next
    some_strings,     ///< pass by pass, only the strings named (the doubtful ones of an earlier check)
    one_pedal,        ///< pass by pass, one letter
    one_octave,       ///< pass by pass, one harp octave
};

[[nodiscard]] std::string_view way_name(CheckWay way);
[[nodiscard]] std::optional<CheckWay> way_from_name(std::string_view name);

/// What a plan is made from.
struct CheckPlanRequest {
    CheckWay way = CheckWay::pass_by_pass;
    std::optional<Letter> letter;     ///< one_pedal
    std::optional<int> harp_octave;   ///< one_octave
    std::vector<StringPlace> strings; ///< some_strings
    bool from_top = false;            ///< highest string first
    int closing_strings = 5;          ///< sounded again at the end; 0: none

    bool operator==(const CheckPlanRequest&) const = default;
};

/// One string in one position.
struct CheckTarget {
    StringPlace place;
    Position position = Position::flat;

    bool operator==(const CheckTarget&) const = default;
};

/// Where the pedals (or the levers of each letter) stand, indexed by Letter; nothing where it does not
/// matter.
using LetterPositions = std::array<std::optional<Position>, 7>;

/// A setting to make and what to pluck in it.
struct CheckStation {
    LetterPositions setting;
    std::vector<CheckTarget> targets;
    std::optional<StringPlace> single_string; ///< a lever harp taken string by string: only this lever moves
    bool closing = false;                     ///< sounded before; shows how the harp drifted meanwhile
};

struct CheckPlan {
    std::vector<CheckStation> stations;

    [[nodiscard]] std::size_t target_count() const;
};

/// The way through one harp.
///
/// Returns    the stations in order, none empty; invalid_argument when the request names no string of this
///            harp or leaves out what its way needs
/// Notes      A string is always asked for in all its positions, for a step is only as good as both of its
///            ends measured at one time. The closing strings are spread evenly over those asked for and are
///            taken in their open position, so that they also show whether the open pitch came back.
[[nodiscard]] Result<CheckPlan> make_check_plan(const HarpLayout& layout, const CheckPlanRequest& request);

} // namespace harpkeep
