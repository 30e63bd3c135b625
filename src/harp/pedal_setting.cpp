// SPDX-License-Identifier: MIT
#include "harp/pedal_setting.hpp"

#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr std::string_view diagram_signs = "^-v"; // for -1, 0, +1
constexpr std::size_t pedals_of_left_foot = 3;    // D C B

std::string_view accidental_sign(int alteration)
{
    return alteration < 0 ? "b" : (alteration > 0 ? "#" : "");
}

/// Takes a word from the front of `text` when it is there.
bool take(std::string_view& text, std::string_view word)
{
    if (!text.starts_with(word)) return false;
    text.remove_prefix(word.size());
    return true;
}

/// The accidental at the front of `text`; nothing there means natural.
int take_accidental(std::string_view& text)
{
    for (const auto* flat : {"-flat", " flat", "b", "\u266D"})
        if (take(text, flat)) return -1;
    for (const auto* sharp : {"-sharp", " sharp", "#", "\u266F"})
        if (take(text, sharp)) return 1;
    for (const auto* natural : {"-natural", " natural", "\u266E"})
        if (take(text, natural)) return 0;
    return 0;
}

std::optional<PedalSetting> from_diagram(std::string_view text)
{
    PedalSetting setting;
    std::size_t pedal = 0;
    for (const char sign : text) {
        if (sign == '|' && pedal == pedals_of_left_foot) continue;
        if (sign == ' ') continue;
        const auto found = diagram_signs.find(sign);
        if (found == std::string_view::npos || pedal == pedal_order.size()) return std::nullopt;
        setting.set(pedal_order[pedal++], static_cast<int>(found) - 1);
    }
    if (pedal != pedal_order.size()) return std::nullopt;
    return setting;
}

constexpr bool is_separator(char character)
{
    return character == ' ' || character == ',' || character == '|';
}

} // namespace

std::string pedal_diagram(const PedalSetting& setting)
{
    std::string text;
    for (std::size_t pedal = 0; pedal < pedal_order.size(); ++pedal) {
        if (pedal == pedals_of_left_foot) text += '|';
        text += diagram_signs[static_cast<std::size_t>(setting.alteration(pedal_order[pedal]) + 1)];
    }
    return text;
}

std::string pedal_names(const PedalSetting& setting)
{
    std::string text;
    for (std::size_t pedal = 0; pedal < pedal_order.size(); ++pedal) {
        const Letter letter = pedal_order[pedal];
        if (pedal > 0) text += pedal == pedals_of_left_foot ? " | " : " ";
        text += letter_name(letter);
        text += accidental_sign(setting.alteration(letter));
    }
    return text;
}

Result<PedalSetting> pedal_setting_from_text(std::string_view text)
{
    if (const auto setting = from_diagram(text)) return *setting;
    PedalSetting setting;
    std::array<bool, 7> named{};
    std::string_view rest = text;
    while (!rest.empty()) {
        if (is_separator(rest.front())) {
            rest.remove_prefix(1);
            continue;
        }
        const auto letter = letter_from_name(rest.front());
        if (!letter)
            return failure(
                ErrorCode::invalid_argument,
                fmt::format("\"{}\" is no pedal setting at \"{}\"; write the pedals as in \"Db C# Bb E Fb "
                            "G A#\", or as a diagram like ^v^|-^-v",
                            text, rest));
        bool& seen = named[static_cast<std::size_t>(*letter)];
        if (seen)
            return failure(
                ErrorCode::invalid_argument,
                fmt::format("the pedal {} stands twice in \"{}\"; name it once", letter_name(*letter), text));
        seen = true;
        rest.remove_prefix(1);
        setting.set(*letter, take_accidental(rest));
    }
    return setting;
}

} // namespace harpkeep
