// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <string>

namespace harpkeep {

// Amounts in words and digits as screen, terminal and paper print them: no more digits than anyone can use.

/// A share of a whole, which may be more than all of it: "104 %", "43 %", "7.2 %", "0.4 %", "under 0.1 %".
[[nodiscard]] std::string percent_text(double share);
/// A probability from data, never certainty either way: "under 0.1 %", "43 %", "over 99.9 %".
[[nodiscard]] std::string probability_text(double probability);
/// "5 to 12 %"; "88 to 104 %".
[[nodiscard]] std::string percent_range_text(double lower_share, double upper_share);
/// "under 0.1 to 0.4 %".
[[nodiscard]] std::string probability_range_text(double lower, double upper);

/// A span of time by its size: "9 days", "14 months", "3.2 years", "over 100 years".
[[nodiscard]] std::string span_text(double days);
/// "8 to 14 months"; the unit of the upper end, or both units where they differ.
[[nodiscard]] std::string span_range_text(double lower_days, double upper_days);

/// A count that need not be whole: "0.3", "12", "under 0.1".
[[nodiscard]] std::string count_text(double count);
/// "0.2 to 0.5".
[[nodiscard]] std::string count_range_text(double lower, double upper);
/// "1 break", "3 breaks": the word's plain plural.
[[nodiscard]] std::string counted(int count, const std::string& word);

/// "214 N", "9.73 kN".
[[nodiscard]] std::string newtons_text(Newtons force);
/// "118 MPa".
[[nodiscard]] std::string megapascals_text(Megapascals stress);
/// "0.91 mm", "640 mm".
[[nodiscard]] std::string millimetres_text(Millimetres length);
/// "1.34 N/mm".
[[nodiscard]] std::string stiffness_text(NewtonsPerMillimetre stiffness);
/// "1.53 g/m".
[[nodiscard]] std::string mass_per_metre_text(KilogramsPerMetre mass);

} // namespace harpkeep
