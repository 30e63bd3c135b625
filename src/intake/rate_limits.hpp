// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"

#include <string>
#include <vector>

namespace harpkeep {

/// What a recording at a low sample rate cannot tell about a harp, for the player: which strings and
/// positions lie above what it holds, and which are left with their first partial. Empty when nothing is
/// lost.
///
/// Notes   A telephone's 8000 samples a second end at 3400 Hz (highest_measurable_hz in src/audio): every
/// string
///         of a concert harp is in it, but from 1A up no second partial.
[[nodiscard]] std::vector<std::string> rate_limits(const HarpLayout& layout, Hertz a4, double sample_rate_hz);

} // namespace harpkeep
