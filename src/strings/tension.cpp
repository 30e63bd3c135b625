// SPDX-License-Identifier: MIT
#include "strings/tension.hpp"

#include "base/expects.hpp"

#include <cmath>

namespace harpkeep {

namespace {

constexpr double metres_per_millimetre = 1e-3;
constexpr double pascals_per_megapascal = 1e6;

/// Area of a disc in square metres.
double area_m2(Millimetres diameter)
{
    const double d = diameter.value() * metres_per_millimetre;
    return 0.25 * std::numbers::pi * d * d;
}

/// Speed of the transverse wave, 2 L f.
double wave_speed_m_s(Millimetres length, Hertz frequency)
{
    return 2.0 * length.value() * metres_per_millimetre * frequency.value();
}

} // namespace

KilogramsPerMetre mass_per_metre(Millimetres diameter, KilogramsPerCubicMetre density)
{
    HARPKEEP_EXPECTS(diameter.value() > 0.0 && density.value() > 0.0);
    return KilogramsPerMetre{density.value() * area_m2(diameter)};
}

KilogramsPerMetre weighed_mass_per_metre(Grams mass, Millimetres piece_length)
{
    HARPKEEP_EXPECTS(mass.value() > 0.0 && piece_length.value() > 0.0);
    return KilogramsPerMetre{mass.value() / piece_length.value()}; // g/mm = kg/m
}

KilogramsPerMetre wound_mass_per_metre(const WoundGeometry& geometry)
{
    HARPKEEP_EXPECTS(geometry.core_diameter.value() > 0.0);
    HARPKEEP_EXPECTS(geometry.outer_diameter >= geometry.core_diameter);
    HARPKEEP_EXPECTS(geometry.packing > 0.0 && geometry.packing <= 1.0);
    const double core = area_m2(geometry.core_diameter);
    const double ring = area_m2(geometry.outer_diameter) - core;
    return KilogramsPerMetre{geometry.core_density.value() * core +
                             geometry.wrap_density.value() * ring * geometry.packing};
}

Grams string_mass(KilogramsPerMetre mass_per_metre, Millimetres piece_length)
{
    return Grams{mass_per_metre.value() * piece_length.value()}; // kg/m = g/mm
}

Newtons tension(KilogramsPerMetre mass_per_metre, Millimetres length, Hertz frequency)
{
    const double speed = wave_speed_m_s(length, frequency);
    return Newtons{mass_per_metre.value() * speed * speed};
}

Hertz frequency_at(KilogramsPerMetre mass_per_metre, Millimetres length, Newtons tension)
{
    HARPKEEP_EXPECTS(mass_per_metre.value() > 0.0 && length.value() > 0.0 && tension.value() >= 0.0);
    return Hertz{std::sqrt(tension.value() / mass_per_metre.value()) /
                 (2.0 * length.value() * metres_per_millimetre)};
}

Megapascals plain_stress(KilogramsPerCubicMetre density, Millimetres length, Hertz frequency)
{
    const double speed = wave_speed_m_s(length, frequency);
    return Megapascals{density.value() * speed * speed / pascals_per_megapascal};
}

Megapascals stress(Newtons tension, Millimetres load_bearing_diameter)
{
    HARPKEEP_EXPECTS(load_bearing_diameter.value() > 0.0);
    return Megapascals{tension.value() / area_m2(load_bearing_diameter) / pascals_per_megapascal};
}

Millimetres length_for_stress(KilogramsPerCubicMetre density, Megapascals stress, Hertz frequency)
{
    HARPKEEP_EXPECTS(density.value() > 0.0 && stress.value() >= 0.0 && frequency.value() > 0.0);
    const double speed = std::sqrt(stress.value() * pascals_per_megapascal / density.value());
    return Millimetres{speed / (2.0 * frequency.value()) / metres_per_millimetre};
}

} // namespace harpkeep
