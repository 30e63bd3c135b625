// SPDX-License-Identifier: MIT
#include "strings/string_feel.hpp"

#include "base/expects.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep {

NewtonsPerMillimetre lateral_stiffness(Newtons tension, Millimetres length, double pluck_fraction,
                                       double inharmonicity)
{
    HARPKEEP_EXPECTS(tension.value() > 0.0 && length.value() > 0.0 && inharmonicity >= 0.0);
    HARPKEEP_EXPECTS(pluck_fraction > 0.0 && pluck_fraction < 1.0);
    const double a = pluck_fraction * length.value();
    const double b = length.value() - a;
    double compliance_mm = a * b / length.value(); // displacement for a force equal to the tension
    if (inharmonicity > 0.0) {
        const double s = std::sqrt(inharmonicity) * length.value() / std::numbers::pi;
        // sinh(a/s) sinh(b/s) / sinh(L/s), written with falling exponentials so that it never overflows
        const double rounding = 0.5 * -std::expm1(-2.0 * a / s) * -std::expm1(-2.0 * b / s) /
                                -std::expm1(-2.0 * length.value() / s);
        compliance_mm -= s * rounding;
    }
    return NewtonsPerMillimetre{tension.value() / compliance_mm};
}

} // namespace harpkeep
