// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <span>

namespace harpkeep {

/// By how much the whole harp moved between the beginning and the end of a check.
struct HarpDrift {
    Cents shift; ///< positive: the harp rose
    Cents uncertainty;
    int strings = 0;
};

/// Shift of strings that were sounded twice in one position.
///
/// Given      first, again  readings; those of one place and position belong together
/// Returns    the median of the shifts, or nothing below three strings
/// Notes      The median lets one string slip without a word. Its standard uncertainty is 1.2533 times that
/// of
///            a mean of normal values, from the median absolute deviation, and not less than what the single
///            readings allow.
/// Reference  P. J. Huber, Robust Statistics, 1981: efficiency of the median, 1.4826 for the MAD (from
/// memory)
[[nodiscard]] std::optional<HarpDrift> harp_drift(std::span<const Reading> first,
                                                  std::span<const Reading> again);

} // namespace harpkeep
