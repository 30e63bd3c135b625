// SPDX-License-Identifier: MIT
#include "reason/step_geometry.hpp"

#include "base/expects.hpp"
#include "units/interval.hpp"

#include <cmath>
#include <numbers>

namespace harpkeep {

Millimetres sounding_length(Millimetres open_length, Position position)
{
    HARPKEEP_EXPECTS(open_length.value() > 0.0);
    return open_length * std::exp2(-semitones_above_open(position) / 12.0);
}

Millimetres length_for_one_cent(Millimetres sounding_length)
{
    HARPKEEP_EXPECTS(sounding_length.value() > 0.0);
    return sounding_length * (std::numbers::ln2 / 1200.0);
}

Cents pitch_raised_by_grip(const Grip& grip)
{
    HARPKEEP_EXPECTS(grip.to_near_end.value() > 0.0 && grip.to_far_end.value() > 0.0);
    HARPKEEP_EXPECTS(grip.stretched_length.value() > 0.0);
    const double push = grip.push.value();
    const double lengthening =
        0.5 * push * push * (1.0 / grip.to_near_end.value() + 1.0 / grip.to_far_end.value());
    // Frequency goes with the root of the tension, tension rises by E / stress times the strain.
    return Cents{0.5 * cents_per_neper * grip.modulus_over_stress * lengthening /
                 grip.stretched_length.value()};
}

} // namespace harpkeep
