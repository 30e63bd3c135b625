// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

namespace harpkeep::dashboard {

struct Tick {
    double at = 0.0;
    std::string label;
};

/// Round numbers (1, 2 or 5 times a power of ten apart) within [low, high], at most `most` of them.
///
/// Given  low < high, both finite; most >= 2
[[nodiscard]] std::vector<Tick> number_ticks(double low, double high, int most);

/// Starts of days, months, quarters or years within [low, high] (days since 1970-01-01), at most `most`.
///
/// Given  low < high, both finite; most >= 2
[[nodiscard]] std::vector<Tick> date_ticks(double low, double high, int most);

} // namespace harpkeep::dashboard
