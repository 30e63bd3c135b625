// SPDX-License-Identifier: MIT
#include "exchange/base64.hpp"

#include <algorithm>

namespace harpkeep {

namespace {

constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

} // namespace

std::string base64(std::span<const std::uint8_t> bytes)
{
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t count = std::min<std::size_t>(3, bytes.size() - i);
        std::uint32_t group = 0;
        for (std::size_t j = 0; j < 3; ++j) group = group << 8U | (j < count ? bytes[i + j] : 0U);
        for (std::size_t j = 0; j < 4; ++j)
            text += j <= count ? alphabet[group >> (18U - 6U * j) & 63U] : '=';
    }
    return text;
}

std::optional<std::vector<std::uint8_t>> bytes_from_base64(std::string_view text)
{
    if (text.size() % 4 != 0) return std::nullopt;
    std::vector<std::uint8_t> bytes;
    bytes.reserve(text.size() / 4 * 3);
    while (text.ends_with('=') && text.size() % 4 != 2) text.remove_suffix(1);
    std::uint32_t bits = 0;
    unsigned count = 0;
    for (const char character : text) {
        const auto value = alphabet.find(character);
        if (value == std::string_view::npos) return std::nullopt;
        bits = bits << 6U | static_cast<std::uint32_t>(value);
        count += 6;
        if (count < 8) continue;
        count -= 8;
        bytes.push_back(static_cast<std::uint8_t>(bits >> count & 0xFFU));
    }
    const bool bits_left_over = (bits & ((1U << count) - 1U)) != 0;
    if (bits_left_over || count == 6) return std::nullopt;
    return bytes;
}

} // namespace harpkeep
