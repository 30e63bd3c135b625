// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// Bytes as text, with padding.
///
/// Reference  RFC 4648, section 4; its section 10 is a test (tests/src/exchange/base64_test.cpp)
[[nodiscard]] std::string base64(std::span<const std::uint8_t> bytes);

/// The inverse; nothing when the text is no such thing: other characters, a wrong length, bits left over.
[[nodiscard]] std::optional<std::vector<std::uint8_t>> bytes_from_base64(std::string_view text);

} // namespace harpkeep
