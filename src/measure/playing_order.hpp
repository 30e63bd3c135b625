// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"

#include <vector>

namespace harpkeep {

/// The ways in which people sound a harp for a check.
enum class PlayingWay { pass_by_pass, string_by_string, pedal_by_pedal };

/// One string in one position, at its turn in an order of playing.
struct OrderedTarget {
    std::size_t string = 0; ///< index in the layout
    Position position = Position::flat;
    int turn = 0;                ///< when it is expected, counted from 0
    double expected_cents = 0.0; ///< equal temperament, from key 0
    int pass =
        0; ///< what may be recorded alone: one position, or one of one pedal; string by string all is one
    int turn_in_pass = 0;
    /// What a player sounds or leaves out as a whole: string by string a string, else one turn.
    int unit = 0;
    int before_in_unit = 0, after_in_unit = 0; ///< turns
};

/// Every string and position of a harp in the order in which they are sounded.
///
/// Given    from_top  highest string first
/// Notes    A string without discs has one position and is expected in every pass, at the same pitch.
[[nodiscard]] std::vector<OrderedTarget> playing_order(const HarpLayout& layout, PlayingWay way,
                                                       bool from_top);

} // namespace harpkeep
