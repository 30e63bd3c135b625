// SPDX-License-Identifier: MIT
#include "strings/pitch_glide.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <numbers>

namespace harpkeep {

PitchGlide pitch_glide(Millimetres amplitude, Millimetres length, double young_over_stress)
{
    HARPKEEP_EXPECTS(length.value() > 0.0 && young_over_stress >= 0.0);
    const double slope = amplitude / length;
    const double common =
        cents_per_neper * std::numbers::pi * std::numbers::pi * young_over_stress * slope * slope;
    return {.own_partial = Cents{common * 3.0 / 32.0}, .other_partials = Cents{common / 16.0}};
}

} // namespace harpkeep
