// SPDX-License-Identifier: MIT
#include "reason/measured_inharmonicity.hpp"

#include "stats/robust_scale.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep {

std::optional<MeasuredInharmonicity> measured_inharmonicity(std::span<const Reading> readings,
                                                            StringPlace place)
{
    std::vector<double> open;
    for (const auto& reading : readings)
        if (reading.place == place && reading.pluck.trusted() && reading.pluck.inharmonicity > 0.0)
            open.push_back(reading.pluck.inharmonicity *
                           std::exp2(-semitones_above_open(reading.position) / 6.0));
    if (open.empty()) return std::nullopt;

    constexpr double alone = 0.20;
    constexpr double least = 0.02; // readings that agree by luck are not exact
    const double value = stats::median(open);
    if (open.size() == 1) return MeasuredInharmonicity{value, alone * value};
    double sum = 0.0;
    for (const double b : open) sum += (b - value) * (b - value);
    const double count = static_cast<double>(open.size());
    const double error = std::sqrt(sum / (count - 1.0) / count);
    return MeasuredInharmonicity{value, std::max(error, least * value)};
}

} // namespace harpkeep
