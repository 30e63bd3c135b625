// SPDX-License-Identifier: MIT
#pragma once

#include "measure/playing_order.hpp"
#include "measure/reading.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// A pluck to be placed.
struct HeardPluck {
    int file_index = 0;
    PluckMeasurement measurement;
    std::optional<Position> pass; ///< its file holds only this position
};

/// Where a pluck belongs.
struct PlacedPluck {
    std::size_t pluck = 0;  ///< index of the pluck
    std::size_t string = 0; ///< index in the layout
    Position position = Position::flat;
    double off_cents = 0.0; ///< from where the rest of the harp and the string's other plucks put it
    std::size_t rival = 0;  ///< 0: the likeliest pitch of the pluck; else 1 + index into its rivals
    bool ambiguous = false; ///< another place fits nearly as well
};

struct PluckPlacement {
    PlayingWay way = PlayingWay::pass_by_pass;
    bool from_top = false;
    double harp_offset_cents = 0.0;  ///< of the whole harp from equal temperament at the A4 given
    std::vector<PlacedPluck> placed; ///< in the order of the plucks
    std::vector<std::size_t> unplaced;
};

/// Finds string and position of every pluck by the order in which a harp is sounded and by pitch.
///
/// Given    a4  that the harp is thought to be tuned to
/// Notes    Dynamic programming over the plucks, for each way of playing, direction and offset of the whole
/// harp;
///          what each string is off is then learned from its own plucks and the search done again. Skipped
///          strings, repeats, going back and stray sounds each have their cost (in units of -ln probability,
///          our own choice). So E sharp and F, F flat and E are told apart by their turn, and a harp 40 cents
///          off, at another A4, or untuned in places is still placed.
[[nodiscard]] PluckPlacement place_plucks(const HarpLayout& layout, Hertz a4,
                                          std::span<const HeardPluck> plucks);

} // namespace harpkeep
