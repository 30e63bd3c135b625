// SPDX-License-Identifier: MIT
#pragma once

#include "synth/synthetic_recording.hpp"

namespace harpkeep::tests {

inline constexpr double rate_hz = 24000.0;

/// A pluck of a string by its harp name, as in 4C.
inline SoundEvent pluck_at(double start_s, const char* place, Position position = Position::natural)
{
    SoundEvent event{.start_s = start_s, .place = place_from_harp_name(place).value(), .position = position};
    event.pluck.level_dbfs = -20.0;
    return event;
}

} // namespace harpkeep::tests
