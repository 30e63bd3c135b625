// SPDX-License-Identifier: MIT
#include "strings/inharmonicity_check.hpp"

#include <cmath>

namespace harpkeep {

std::optional<InharmonicityComparison> compare_inharmonicity(const StrungPlace& string,
                                                             const StringFigures& predicted,
                                                             const MeasuredInharmonicity& measured,
                                                             double coverage)
{
    if (!predicted.inharmonicity || measured.value < 0.0) return std::nullopt;
    const auto& expected = *predicted.inharmonicity;
    const double reach = coverage * measured.standard_uncertainty;

    InharmonicityComparison comparison{.ratio = measured.value / expected.value};
    if (measured.value + reach < expected.low)
        comparison.verdict = InharmonicityVerdict::more_supple;
    else if (predicted.inharmonicity_is_floor)
        comparison.verdict = InharmonicityVerdict::above_floor;
    else if (measured.value - reach > expected.high)
        comparison.verdict = InharmonicityVerdict::stiffer;
    if (!string.spec.wrap && !string.spec.weighed)
        comparison.equivalent_diameter = *string.spec.diameter * std::sqrt(comparison.ratio);
    return comparison;
}

} // namespace harpkeep
