// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <numbers>

namespace harpkeep {

// Every length here is the sounding length of the open string and every frequency its open pitch, unless said
// otherwise. A disc that only shortens the string leaves f * L, and so tension and stress, as they were.

/// Mass of a round, plain string for each metre: density * pi d^2 / 4.
[[nodiscard]] KilogramsPerMetre mass_per_metre(Millimetres diameter, KilogramsPerCubicMetre density);

/// Mass for each metre of a cut-off piece on the scales: the way that needs no constant and no geometry.
///
/// Notes  Weigh the part of a wound string that carries the wrap; take a piece that is as long as there is.
[[nodiscard]] KilogramsPerMetre weighed_mass_per_metre(Grams mass, Millimetres piece_length);

/// Core and wrap of a close-wound string with one layer of round wire.
struct WoundGeometry {
    Millimetres core_diameter;
    Millimetres outer_diameter; ///< over the wrap
    KilogramsPerCubicMetre core_density;
    KilogramsPerCubicMetre wrap_density;
    double packing = std::numbers::pi / 4.0; ///< share of the ring that is metal: round wire, turns touching
};

/// Mass for each metre of a wound string: rho_c pi dc^2/4 + rho_w pi/4 (D^2 - dc^2) * packing.
///
/// Given      0 < core_diameter <= outer_diameter, 0 < packing <= 1
/// Notes      Layers of silk or nylon between core and wrap are not in it: weigh such a string instead.
/// Reference  geometry of a helix of round wire (from memory); the tests count the turns one by one
[[nodiscard]] KilogramsPerMetre wound_mass_per_metre(const WoundGeometry& geometry);

/// Mass of a piece of string.
[[nodiscard]] Grams string_mass(KilogramsPerMetre mass_per_metre, Millimetres piece_length);

/// Tension that brings a string to a pitch: mu (2 L f)^2.
[[nodiscard]] Newtons tension(KilogramsPerMetre mass_per_metre, Millimetres length, Hertz frequency);

/// Pitch of a string at a tension; inverse of tension().
[[nodiscard]] Hertz frequency_at(KilogramsPerMetre mass_per_metre, Millimetres length, Newtons tension);

/// Stress of a plain string at a pitch: rho (2 L f)^2, whatever its diameter.
[[nodiscard]] Megapascals plain_stress(KilogramsPerCubicMetre density, Millimetres length, Hertz frequency);

/// Stress in what carries the load: the plain string, or the core of a wound one.
[[nodiscard]] Megapascals stress(Newtons tension, Millimetres load_bearing_diameter);

/// The length at which a plain string reaches a stress; with the breaking stress, the longest it can have.
[[nodiscard]] Millimetres length_for_stress(KilogramsPerCubicMetre density, Megapascals stress,
                                            Hertz frequency);

} // namespace harpkeep
