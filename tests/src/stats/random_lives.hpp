// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"
#include "stats/weibull.hpp"

#include <cmath>
#include <random>
#include <vector>

namespace harpkeep::stats::random_lives {

/// Uniform number in (0, 1) from the high bits: the same on every library, unlike the standard distributions.
inline double uniform(std::mt19937_64& random)
{
    return (static_cast<double>(random() >> 11U) + 0.5) * 0x1.0p-53;
}

/// How the watching is arranged: shares of all that enter late and the range of ages at which it ends.
struct Watching {
    double late_share = 0.0;
    double latest_entry = 1.0; ///< in scales
    double longest = 2.0;      ///< end of watching, uniform from 0.1 to this, in scales after the entry
    double scale = 0.0;        ///< what counts as a scale; 0 for that of the life itself
};

/// `count` lives of a Weibull, seen through late entry and censoring. A life that failed before its entry is
/// drawn again, as it would never have been seen.
inline std::vector<LifeObservation> draw(std::mt19937_64& random, const WeibullLife& life, int count,
                                         const Watching& watching)
{
    std::vector<LifeObservation> lives;
    const double scale = watching.scale > 0.0 ? watching.scale : life.scale;
    while (static_cast<int>(lives.size()) < count) {
        const double age = life.scale * std::pow(-std::log(uniform(random)), 1.0 / life.shape);
        const bool late = uniform(random) < watching.late_share;
        const double entry = late ? uniform(random) * watching.latest_entry * scale : 0.0;
        const double end = entry + (0.1 + uniform(random) * (watching.longest - 0.1)) * scale;
        if (age <= entry) continue;
        lives.push_back({entry, std::min(age, end), age <= end});
    }
    return lives;
}

} // namespace harpkeep::stats::random_lives
