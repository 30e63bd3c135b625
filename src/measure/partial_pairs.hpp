// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"

#include <vector>

namespace harpkeep {

/// A partial that two plucks of one string both have; valid as long as they are.
struct PartialPair {
    const Partial& lower;
    const Partial& upper;
};

/// In the order of the lower pluck's partials.
[[nodiscard]] std::vector<PartialPair> partial_pairs(const PluckMeasurement& lower,
                                                     const PluckMeasurement& upper);

} // namespace harpkeep
