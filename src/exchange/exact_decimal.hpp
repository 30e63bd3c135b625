// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// A whole number of small units as a decimal of the large one: 51234 with 6 decimals is "0.051234".
///
/// Given  decimals  0 to 12
/// Notes  Without zeros at the end; no rounding, so that decimal_from_text() gives the number back.
[[nodiscard]] std::string exact_decimal(std::int64_t small_units, int decimals);

/// The inverse of exact_decimal(). What other programs make of the number on its way through a double is read
/// too: exponents, and decimals that come from rounding in binary.
///
/// Returns  nothing when the text is no number, would have to be rounded, or is too large
[[nodiscard]] std::optional<std::int64_t> small_units_from_decimal(std::string_view text, int decimals);

/// The shortest text that reads as this number again.
[[nodiscard]] std::string shortest_number(double value);
/// A number that is finite; nothing when the text is none.
[[nodiscard]] std::optional<double> finite_number(std::string_view text);
[[nodiscard]] std::optional<std::int64_t> whole_number(std::string_view text);

} // namespace harpkeep
