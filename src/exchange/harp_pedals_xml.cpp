// SPDX-License-Identifier: MIT
#include "exchange/harp_pedals_xml.hpp"

#include <charconv>
#include <fmt/format.h>
#include <optional>

namespace harpkeep {

namespace {

std::string without_comments(std::string_view xml)
{
    std::string text;
    while (true) {
        const auto begin = xml.find("<!--");
        text += xml.substr(0, begin);
        if (begin == std::string_view::npos) return text;
        const auto end = xml.find("-->", begin + 4);
        if (end == std::string_view::npos) return text;
        xml.remove_prefix(end + 3);
    }
}

/// The inside of the first element of this name, with `rest` moved behind it. Attributes are allowed.
std::optional<std::string_view> next_element(std::string_view& rest, std::string_view name)
{
    std::size_t from = 0;
    while (true) {
        const auto open = rest.find(fmt::format("<{}", name), from);
        if (open == std::string_view::npos) return std::nullopt;
        const auto after_name = open + 1 + name.size();
        const auto tag_end = rest.find('>', after_name);
        if (tag_end == std::string_view::npos) return std::nullopt;
        const char next = rest[after_name];
        const bool whole_name = next == '>' || next == ' ' || next == '\t' || next == '\n' || next == '\r';
        if (!whole_name || rest[tag_end - 1] == '/') {
            from = after_name;
            continue;
        }
        const auto close = rest.find(fmt::format("</{}", name), tag_end);
        if (close == std::string_view::npos) return std::nullopt;
        const auto inside = rest.substr(tag_end + 1, close - tag_end - 1);
        rest.remove_prefix(close + 2 + name.size());
        return inside;
    }
}

std::string_view trimmed_text(std::string_view text)
{
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

/// "-1", "0", "1", also "+1" and "-1.0": the standard allows decimals, a pedal only these three.
std::optional<int> alteration_from(std::string_view text)
{
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    for (const int alteration : {-1, 0, 1})
        if (value == alteration) return alteration;
    return std::nullopt;
}

Result<void> apply(std::string_view tuning, PedalSetting& setting)
{
    auto rest = tuning;
    const auto step = next_element(rest, "pedal-step");
    rest = tuning;
    const auto alter = next_element(rest, "pedal-alter");
    const auto letter_text = step ? trimmed_text(*step) : std::string_view{};
    const auto letter = letter_text.size() == 1 ? letter_from_name(letter_text.front()) : std::nullopt;
    const auto alteration = alter ? alteration_from(trimmed_text(*alter)) : std::nullopt;
    if (!letter || !alteration)
        return failure(
            ErrorCode::unusable_input,
            fmt::format("a pedal-tuning says step \"{}\" and alter \"{}\"; a harp has the steps A to G and "
                        "the alterations -1, 0 and 1",
                        letter_text, alter ? trimmed_text(*alter) : std::string_view{}));
    setting.set(*letter, *alteration);
    return {};
}

} // namespace

std::string harp_pedals_xml(const PedalSetting& setting)
{
    std::string text = "<direction>\n  <direction-type>\n    <harp-pedals>\n";
    for (const Letter letter : pedal_order)
        text += fmt::format("      <pedal-tuning>\n        <pedal-step>{}</pedal-step>\n        "
                            "<pedal-alter>{}</pedal-alter>\n      </pedal-tuning>\n",
                            letter_name(letter), setting.alteration(letter));
    return text + "    </harp-pedals>\n  </direction-type>\n</direction>\n";
}

Result<std::vector<PedalSetting>> pedal_settings_from_xml(std::string_view xml)
{
    const std::string text = without_comments(xml);
    std::string_view rest = text;
    std::vector<PedalSetting> settings;
    PedalSetting setting;
    while (const auto pedals = next_element(rest, "harp-pedals")) {
        std::string_view tunings = *pedals;
        while (const auto tuning = next_element(tunings, "pedal-tuning")) {
            const auto applied = apply(*tuning, setting);
            if (!applied) return failure(applied.error());
        }
        settings.push_back(setting);
    }
    if (settings.empty())
        return failure(ErrorCode::unusable_input, "there is no harp-pedals element in this MusicXML");
    return settings;
}

} // namespace harpkeep
