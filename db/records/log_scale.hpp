// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace harpkeep::db {

/// A positive number on 255 steps of equal ratio, in one byte; 0 stays 0.
struct LogScale {
    double smallest;
    double steps_per_decade;

    [[nodiscard]] std::uint8_t code(double value) const
    {
        if (!(value > 0.0)) return 0;
        const double step = std::round(std::log10(value / smallest) * steps_per_decade);
        return static_cast<std::uint8_t>(1.0 + std::clamp(step, 0.0, 254.0));
    }
    [[nodiscard]] double value(std::uint8_t code) const
    {
        return code == 0 ? 0.0 : smallest * std::pow(10.0, (code - 1) / steps_per_decade);
    }
};

} // namespace harpkeep::db
