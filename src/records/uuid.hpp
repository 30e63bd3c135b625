// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// Key of a thing or a fact in the ledger: the same on every computer, sorted by the time it was made.
struct Uuid {
    std::array<std::uint8_t, 16> bytes{};

    auto operator<=>(const Uuid&) const = default;
    [[nodiscard]] bool is_nil() const { return *this == Uuid{}; }
};

/// A UUID of version 7.
///
/// Given      utc_ms  milliseconds since 1970, 0 to 2^48 - 1
///            rand_a  12 bits, rand_b 62 bits; higher bits are dropped
/// Reference  RFC 9562, 5.7; its example A.6 is a test (tests/src/records/uuid_test.cpp)
[[nodiscard]] Uuid uuid_version_7(std::int64_t utc_ms, std::uint16_t rand_a, std::uint64_t rand_b);

/// The time in a UUID of version 7.
[[nodiscard]] std::int64_t utc_ms_of(const Uuid& uuid);

/// "017f22e2-79b0-7cc3-98c4-dc0c0c07398f".
[[nodiscard]] std::string to_string(const Uuid& uuid);
/// The inverse; capitals are read too, as RFC 9562, 4 asks.
[[nodiscard]] std::optional<Uuid> uuid_from_string(std::string_view text);

} // namespace harpkeep
