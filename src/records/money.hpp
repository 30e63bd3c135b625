// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// An amount in the smallest unit of its currency: 1250 of "EUR" are 12.50 euros.
struct Money {
    std::int64_t minor_units = 0;
    std::string currency; ///< ISO 4217, three capitals

    bool operator==(const Money&) const = default;
};

/// Digits after the point of an amount: 2 for most currencies, 0 and 3 for those of ISO 4217 that have them.
[[nodiscard]] int decimals_of(std::string_view currency);

/// "12.50 EUR".
[[nodiscard]] std::string money_text(const Money& money);
/// Reads "12.50 EUR", "EUR 12.50" or "12 EUR"; nothing when it is no such amount or has too many decimals.
[[nodiscard]] std::optional<Money> money_from_text(std::string_view text);

} // namespace harpkeep
