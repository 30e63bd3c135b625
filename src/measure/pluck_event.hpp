// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "units/quantity.hpp"

#include <string>
#include <variant>

namespace harpkeep {

// What a stream of sound turns into while somebody plays. Times are seconds of the stream; the events of one
// pluck share its number; numbers rise. A pluck begins, is estimated some times, and ends once; the next one
// may begin before it ends.

/// A string was plucked, or something sounded like it.
struct PluckBegan {
    int pluck = 0;
    Seconds time;
};

/// What is known of a sounding pluck so far.
struct PluckEstimated {
    int pluck = 0;
    Seconds time;
    PluckMeasurement so_far;
};

/// All that the pluck will tell: it died away, was damped, or gave way to the next.
struct PluckEnded {
    int pluck = 0;
    Seconds time;
    PluckMeasurement measurement;
};

/// It was no string, and why ("knock", "speech").
struct SoundIgnored {
    int pluck = 0;
    Seconds time;
    std::string reason;
};

using PluckEvent = std::variant<PluckBegan, PluckEstimated, PluckEnded, SoundIgnored>;

} // namespace harpkeep
