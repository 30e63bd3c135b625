// SPDX-License-Identifier: MIT
#include "records/name_key.hpp"

#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>
#include <memory>
#include <utf8proc.h>

namespace harpkeep {

namespace {

bool has_control_character(std::string_view text)
{
    for (const char character : text) {
        const auto byte = static_cast<unsigned char>(character);
        if (byte < 0x20 || byte == 0x7F) return true;
    }
    return false;
}

std::string with_single_spaces(std::string_view text)
{
    std::string result;
    for (const char character : text) {
        if (character == ' ' && (result.empty() || result.back() == ' ')) continue;
        result += character;
    }
    return trimmed(result);
}

} // namespace

std::string trimmed(std::string_view name)
{
    const auto first = name.find_first_not_of(' ');
    if (first == std::string_view::npos) return {};
    return std::string{name.substr(first, name.find_last_not_of(' ') - first + 1)};
}

std::optional<std::string> too_long(std::string_view name, std::string_view what)
{
    const auto letters = static_cast<std::size_t>(std::count_if(name.begin(), name.end(), [](char byte) {
        return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; // what follows in a letter of UTF-8
    }));
    if (letters <= longest_name) return std::nullopt;
    return fmt::format("{} has {} letters, and at most {} fit; shorten it and put the rest into the remarks",
                       what, letters, longest_name);
}

std::optional<std::string> name_key(std::string_view name)
{
    if (has_control_character(name)) return std::nullopt;
    utf8proc_uint8_t* mapped = nullptr;
    const auto length = utf8proc_map(
        reinterpret_cast<const utf8proc_uint8_t*>(name.data()), static_cast<utf8proc_ssize_t>(name.size()),
        &mapped, static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE | UTF8PROC_CASEFOLD));
    const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned{mapped, &std::free};
    if (length < 0) return std::nullopt;
    auto key = with_single_spaces({reinterpret_cast<const char*>(mapped), static_cast<std::size_t>(length)});
    if (key.empty()) return std::nullopt;
    return key;
}

} // namespace harpkeep
