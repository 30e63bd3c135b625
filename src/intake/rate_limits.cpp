// SPDX-License-Identifier: MIT
#include "intake/rate_limits.hpp"

#include "audio/signal_condition.hpp"
#include "harp/expected_pitch.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace harpkeep {

namespace {

/// "0G", or "0G natural and sharp" when its other positions are not meant.
std::string named(const HarpLayout& layout, const HarpString& string, const std::vector<Position>& positions)
{
    std::string text = harp_name(string.place);
    if (positions.size() == positions_of(layout.kind, string).size()) return text;
    for (std::size_t i = 0; i < positions.size(); ++i)
        text += fmt::format("{}{}", i == 0 ? " " : " and ", position_name(positions[i]));
    return text;
}

/// The strings and positions whose first partial lies above one frequency and not above another, lowest
/// string first.
std::string strings_between(const HarpLayout& layout, Hertz a4, double above_hz, double up_to_hz)
{
    std::string list;
    for (const auto& string : layout.strings) {
        std::vector<Position> meant;
        for (const Position position : positions_of(layout.kind, string)) {
            const double pitch_hz = expected_pitch(string, position, a4).value();
            if (pitch_hz > above_hz && pitch_hz <= up_to_hz) meant.push_back(position);
        }
        if (!meant.empty())
            list += fmt::format("{}{}", list.empty() ? "" : ", ", named(layout, string, meant));
    }
    return list;
}

} // namespace

std::vector<std::string> rate_limits(const HarpLayout& layout, Hertz a4, double sample_rate_hz)
{
    const double highest_hz = highest_measurable_hz(sample_rate_hz);
    std::vector<std::string> limits;
    if (const auto lost = strings_between(layout, a4, highest_hz, sample_rate_hz); !lost.empty())
        limits.push_back(
            fmt::format("at {:.0f} samples a second these cannot be measured, as they sound above "
                        "{:.0f} Hz: {}; record them at 44100 or 48000",
                        sample_rate_hz, highest_hz, lost));
    if (const auto alone = strings_between(layout, a4, 0.5 * highest_hz, highest_hz); !alone.empty())
        limits.push_back(fmt::format("at {:.0f} samples a second no second partial is left of {}; what is "
                                     "measured of them rests on the first alone",
                                     sample_rate_hz, alone));
    return limits;
}

} // namespace harpkeep
