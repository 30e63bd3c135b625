// SPDX-License-Identifier: MIT
#include "strings/inharmonicity.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep {

double inharmonicity(Megapascals young_modulus, Millimetres bending_diameter, Newtons tension,
                     Millimetres length)
{
    HARPKEEP_EXPECTS(tension.value() > 0.0 && length.value() > 0.0);
    // E in MPa and lengths in mm: the powers of ten cancel, as 1 MPa = 1 N/mm^2.
    const double pi_cubed = std::numbers::pi * std::numbers::pi * std::numbers::pi;
    return pi_cubed * young_modulus.value() * std::pow(bending_diameter.value(), 4) /
           (64.0 * tension.value() * length.value() * length.value());
}

Hertz partial_from_stiffless(Hertz stiffless_pitch, double inharmonicity, int number)
{
    HARPKEEP_EXPECTS(number >= 1 && inharmonicity >= 0.0);
    const double n = number;
    return stiffless_pitch * (n * std::sqrt(1.0 + inharmonicity * n * n));
}

Hertz partial_from_first(Hertz first_partial, double inharmonicity, int number)
{
    return partial_from_stiffless(stiffless_pitch(first_partial, inharmonicity), inharmonicity, number);
}

Hertz first_partial(Hertz stiffless_pitch, double inharmonicity)
{
    return partial_from_stiffless(stiffless_pitch, inharmonicity, 1);
}

Hertz stiffless_pitch(Hertz first_partial, double inharmonicity)
{
    HARPKEEP_EXPECTS(inharmonicity >= 0.0);
    return first_partial / std::sqrt(1.0 + inharmonicity);
}

Cents partial_stretch(double inharmonicity, int number)
{
    const double n = number;
    return Cents{0.5 * cents_per_neper * std::log1p(inharmonicity * n * n)};
}

Cents stretch_from_measures(double young_over_density, Millimetres diameter, Millimetres length,
                            Hertz frequency, int number)
{
    HARPKEEP_EXPECTS(length.value() > 0.0 && frequency.value() > 0.0);
    const double n = number;
    const double d_m = 1e-3 * diameter.value();
    const double l_m = 1e-3 * length.value();
    const double coefficient = 0.5 * cents_per_neper * std::numbers::pi * std::numbers::pi / 64.0;
    return Cents{coefficient * young_over_density * n * n * d_m * d_m /
                 (frequency.value() * frequency.value() * std::pow(l_m, 4))};
}

} // namespace harpkeep
