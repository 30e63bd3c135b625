// SPDX-License-Identifier: MIT
#include "measure/reading.hpp"

#include <array>

namespace harpkeep {

namespace {

struct DoubtText {
    Doubt doubt;
    std::string_view name;
    std::string_view advice;
};

constexpr std::array<DoubtText, 9> doubt_texts{{
    {Doubt::too_short, "too short", "The tone was too short; let the string ring before the next one."},
    {Doubt::too_noisy, "too noisy",
     "The string hardly stands out of the noise; pluck louder or nearer the microphone."},
    {Doubt::clipped, "clipped", "The recording is overdriven; lower its level or move the microphone away."},
    {Doubt::beating, "beating",
     "Two pitches beat against each other: damp the other strings; if it stays, the string may be false."},
    {Doubt::still_gliding, "still gliding",
     "The pitch was still sinking; pluck more softly and let it ring."},
    {Doubt::disturbed, "disturbed",
     "The string before still sounded on the same pitch; damp it and pluck again."},
    {Doubt::ambiguous_place, "ambiguous place",
     "It fits more than one string or position; pluck the strings in order."},
    {Doubt::wrong_pitch, "wrong pitch",
     "The pitch is far from this string and position; see whether the pedal or lever is where it should be."},
    {Doubt::irregular, "irregular",
     "The partials do not fit one string; a worn or false string, or two strings at once."},
}};

} // namespace

std::string_view doubt_name(Doubt doubt)
{
    return doubt_texts[static_cast<std::size_t>(doubt)].name;
}

std::optional<Doubt> doubt_from_name(std::string_view name)
{
    for (const auto& text : doubt_texts)
        if (text.name == name) return text.doubt;
    return std::nullopt;
}

std::string_view doubt_advice(Doubt doubt)
{
    return doubt_texts[static_cast<std::size_t>(doubt)].advice;
}

} // namespace harpkeep
