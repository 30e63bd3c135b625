// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/reading.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// One key that two neighbouring strings can sound: C sharp and D flat, E and F flat, E sharp and F.
struct EnharmonicPair {
    StringPlace lower_place; ///< the string of the lower letter, in its higher position
    StringPlace upper_place;
    Position lower_position = Position::sharp;
    Position upper_position = Position::flat;
    double frequency_hz = 0.0; ///< of the lower string's
    double cents = 0.0;        ///< upper string's pitch less lower string's
    double uncertainty_cents = 0.0;
    double beats_per_second = 0.0; ///< of the first partials when both sound
    int rests_on = 0;              ///< readings of both
};

/// Compares every pair of neighbouring strings that can sound the same key and were both measured doing so.
///
/// Given      readings of one check; doubtful ones are left out, repeats averaged
/// Returns    pairs from the lowest on, empty when nothing can be compared
/// Notes      The strings sounded at different times of the check: what the harp sank between is in the
/// cents.
[[nodiscard]] std::vector<EnharmonicPair> compare_enharmonics(const HarpLayout& layout,
                                                              std::span<const Reading> readings);

} // namespace harpkeep
