// SPDX-License-Identifier: MIT
#include "harp/beats.hpp"

#include "base/expects.hpp"

#include <cmath>

namespace harpkeep {

Hertz beat_rate(Hertz lower, Hertz upper, NearCoincidence partials, double lower_inharmonicity,
                double upper_inharmonicity)
{
    HARPKEEP_EXPECTS(partials.lower_partial > 0 && partials.upper_partial > 0);
    const double p = partials.lower_partial;
    const double q = partials.upper_partial;
    return Hertz{std::abs(q * upper.value() * std::sqrt(1.0 + upper_inharmonicity * q * q) -
                          p * lower.value() * std::sqrt(1.0 + lower_inharmonicity * p * p))};
}

} // namespace harpkeep
