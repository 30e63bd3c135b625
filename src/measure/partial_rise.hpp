// SPDX-License-Identifier: MIT
#pragma once

#include "measure/tone_measurement.hpp"
#include "signal/octave_pyramid.hpp"

#include <optional>

namespace harpkeep {

/// How much louder it became at an onset, at the first partials of a pitch and half-way between them.
struct PartialRise {
    double at_db = 0.0;
    double between_db = 0.0;
};

/// Compares a moment before an onset with a moment after it.
///
/// Given    span      the new sound; at most its first 0.3 s and as much before it are looked at
///          first_hz  the pitch in question
/// Returns  the rise in power, or nothing when too little is known of the time before
/// Notes    A string brings partials and little between them; breath, coughs and the octave above a string
///          bring both. What rings on from before falls in both.
[[nodiscard]] std::optional<PartialRise> partial_rise(const OctavePyramid& sound, const ToneSpan& span,
                                                      double first_hz);

} // namespace harpkeep
