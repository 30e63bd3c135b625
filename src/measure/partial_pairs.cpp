// SPDX-License-Identifier: MIT
#include "measure/partial_pairs.hpp"

namespace harpkeep {

std::vector<PartialPair> partial_pairs(const PluckMeasurement& lower, const PluckMeasurement& upper)
{
    std::vector<PartialPair> pairs;
    for (const auto& a : lower.partials)
        for (const auto& b : upper.partials)
            if (a.number == b.number) pairs.push_back({a, b});
    return pairs;
}

} // namespace harpkeep
