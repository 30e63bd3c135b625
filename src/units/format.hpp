// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <string>

namespace harpkeep {

// The digits of every number that people read: on the screen, in the terminal and on paper the same. Minus
// signs are U+2212.

/// "+3.2", "\u22120.4"; what rounds to zero has no sign.
[[nodiscard]] std::string format_signed(double value, int decimals);

/// "+3.2", without unit.
[[nodiscard]] std::string format_cents(Cents value, int decimals = 1);
/// "+3.2 \u00B1 0.3", without unit; the uncertainty never rounds to zero: "\u00B1 <0.1".
[[nodiscard]] std::string format_cents(Cents value, Cents uncertainty, int decimals = 1);
/// "261.63 Hz".
[[nodiscard]] std::string format_hertz(Hertz value, int decimals = 2);
/// "\u221262 dB".
[[nodiscard]] std::string format_decibels(Decibels value);
/// "40 s" below a minute and a half, else "6 min", from two hours on "2 h 5 min".
[[nodiscard]] std::string format_duration(Seconds value);

} // namespace harpkeep
