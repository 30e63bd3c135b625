// SPDX-License-Identifier: MIT
#include "records/uuid.hpp"

#include "base/expects.hpp"

namespace harpkeep {

namespace {

std::optional<unsigned> hex_value(char digit)
{
    if (digit >= '0' && digit <= '9') return static_cast<unsigned>(digit - '0');
    if (digit >= 'a' && digit <= 'f') return static_cast<unsigned>(digit - 'a') + 10;
    if (digit >= 'A' && digit <= 'F') return static_cast<unsigned>(digit - 'A') + 10;
    return std::nullopt;
}

constexpr bool has_dash_before(std::size_t byte)
{
    return byte == 4 || byte == 6 || byte == 8 || byte == 10;
}

} // namespace

Uuid uuid_version_7(std::int64_t utc_ms, std::uint16_t rand_a, std::uint64_t rand_b)
{
    HARPKEEP_EXPECTS(utc_ms >= 0 && utc_ms < (std::int64_t{1} << 48));
    const auto high = static_cast<std::uint64_t>(utc_ms) << 16 | 0x7000U | (rand_a & 0x0FFFU);
    const auto low = std::uint64_t{0b10} << 62 | (rand_b & 0x3FFF'FFFF'FFFF'FFFFU);
    Uuid uuid;
    for (std::size_t i = 0; i < 8; ++i) {
        uuid.bytes[i] = static_cast<std::uint8_t>(high >> (56 - 8 * i) & 0xFFU);
        uuid.bytes[8 + i] = static_cast<std::uint8_t>(low >> (56 - 8 * i) & 0xFFU);
    }
    return uuid;
}

std::int64_t utc_ms_of(const Uuid& uuid)
{
    std::int64_t ms = 0;
    for (std::size_t i = 0; i < 6; ++i) ms = ms << 8 | uuid.bytes[i];
    return ms;
}

std::string to_string(const Uuid& uuid)
{
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    text.reserve(36);
    for (std::size_t i = 0; i < uuid.bytes.size(); ++i) {
        if (has_dash_before(i)) text += '-';
        text += digits[uuid.bytes[i] >> 4U];
        text += digits[uuid.bytes[i] & 0x0FU];
    }
    return text;
}

std::optional<Uuid> uuid_from_string(std::string_view text)
{
    if (text.size() != 36) return std::nullopt;
    Uuid uuid;
    std::size_t at = 0;
    for (std::size_t i = 0; i < uuid.bytes.size(); ++i) {
        if (has_dash_before(i) && text[at++] != '-') return std::nullopt;
        const auto high = hex_value(text[at]);
        const auto low = hex_value(text[at + 1]);
        if (!high || !low) return std::nullopt;
        uuid.bytes[i] = static_cast<std::uint8_t>(*high << 4U | *low);
        at += 2;
    }
    return uuid;
}

} // namespace harpkeep
