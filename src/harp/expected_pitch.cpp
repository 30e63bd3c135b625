// SPDX-License-Identifier: MIT
#include "harp/expected_pitch.hpp"

#include <cmath>

namespace harpkeep {

Hertz equal_temperament(double key, Hertz a4)
{
    return a4 * std::exp2((key - 69.0) / 12.0);
}

Hertz expected_pitch(const HarpString& string, Position position, Hertz a4)
{
    return equal_temperament(key_number(string.place, alteration_of(string, position)), a4);
}

} // namespace harpkeep
