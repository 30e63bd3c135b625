// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <optional>

namespace harpkeep {

/// The same sound read at a pitch `multiple` times as high: every so-many-th of its partials is then one of
/// that pitch, and what they share (glide, second polarisation, doubts) stays.
///
/// Given    multiple >= 2
/// Returns  the reading, without rivals; nothing when none of its partials is a multiple
/// Notes    As good as a measurement of its own as long as the lower pitch, too, is a series of steady
///          partials; the higher pitch keeps those that were followed for the lower one.
[[nodiscard]] std::optional<PluckMeasurement> at_multiple(const PluckMeasurement& measured, int multiple);

} // namespace harpkeep
