// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

namespace harpkeep {

/// How differently a string was plucked twice, as the levels of its partials say: 0 alike, 1 surely not.
///
/// Notes    Plucks at other points, at other angles or by another finger differ by 1 to 7 dB from partial to
///          partial. What noise does to a level, what a fit that begins a little earlier or later makes of
///          it, and what its window blurs in a partial that is gone within it, does not count. One or two
///          levels say too little to call two plucks alike.
[[nodiscard]] double levels_unlikeness(const PluckMeasurement& lower, const PluckMeasurement& upper);

} // namespace harpkeep
