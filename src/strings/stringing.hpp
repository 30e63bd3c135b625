// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "harp/string_place.hpp"
#include "strings/material.hpp"
#include "units/quantity.hpp"

#include <numbers>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep {

/// A figure with the least and the most it can be, given the bounds of what it was computed from. Bounds, not
/// a standard uncertainty: every input is taken at its worst end.
template <class T>
struct Bounded {
    T value{};
    T low{};
    T high{};
};

/// The wrap of a wound string, one layer of round wire.
struct Wrap {
    std::string material;
    Millimetres outer_diameter; ///< over the wrap
    double packing = std::numbers::pi / 4.0;

    bool operator==(const Wrap&) const = default;
};

/// Mass for each metre found on the scales, with its standard uncertainty.
struct WeighedMass {
    KilogramsPerMetre value;
    KilogramsPerMetre standard_uncertainty;

    bool operator==(const WeighedMass&) const = default;
};

/// What a string is made of. A weighed mass, when there is one, goes before all geometry; then the diameter
/// may be missing, and stress, inharmonicity and the share of breaking stress with it.
struct StringSpec {
    std::string material;                ///< of the plain string or of the core
    std::optional<Millimetres> diameter; ///< of the plain string or of the core
    std::optional<Wrap> wrap;
    std::optional<WeighedMass> weighed;

    bool operator==(const StringSpec&) const = default;
};

/// One string place with its sounding length when open and the string meant for it.
struct StrungPlace {
    StringPlace place;
    Millimetres length;
    StringSpec spec;
    Hertz open_pitch;

    bool operator==(const StrungPlace&) const = default;
};

/// All strings of a harp, and where the figures come from ("measured with ruler and micrometer").
struct StringingPlan {
    std::vector<StrungPlace> strings;
    std::string origin;
};

/// How well lengths and diameters were taken.
struct MeasuringSlack {
    Millimetres length{1.0};        ///< half width; a millimetre on a tape measure
    Millimetres diameter{0.005};    ///< half width; a micrometer that reads to 0.01 mm
    double pluck_fraction = 0.5;    ///< where the feel is judged, as part of the length
    double weighing_coverage = 2.0; ///< bounds of a weighed mass in standard uncertainties
};

/// What follows for one string. Stress and its share of the breaking stress are those of what carries the
/// load, so of the core when wound.
struct StringFigures {
    StringPlace place;
    Hertz open_pitch;
    Bounded<KilogramsPerMetre> mass_per_metre;
    Bounded<Newtons> tension;
    std::optional<Bounded<Megapascals>> stress;       ///< nothing: weighed, diameter unknown
    std::optional<Bounded<double>> share_of_breaking; ///< nothing: also without a breaking stress
    std::optional<Bounded<double>> inharmonicity;     ///< B; nothing: also without a Young's modulus
    bool inharmonicity_is_floor = false;              ///< wound: the wrap adds to it
    Bounded<NewtonsPerMillimetre> stiffness;          ///< at the finger
    Grams sounding_mass;                              ///< of the sounding length
    Sureness weakest_constant = Sureness::measured;   ///< of the material constants that went in
};

/// Tension, stress, stiffness and inharmonicity of one string, with bounds.
///
/// Given    length and pitch > 0; diameter > 0, or a weighed mass; a wrap not thinner than its core
/// Returns  the figures, or which material is not in the table or which measure cannot be
[[nodiscard]] Result<StringFigures> figures_of(const StrungPlace& string, const MaterialTable& materials,
                                               const MeasuringSlack& slack = {});

/// All strings together.
struct HarpPull {
    std::vector<StringFigures> strings;
    Bounded<Newtons> total; ///< sum of the tensions: what neck and soundboard hold
    Grams mass;
};

[[nodiscard]] Result<HarpPull> pull_of(const StringingPlan& plan, const MaterialTable& materials,
                                       const MeasuringSlack& slack = {});

/// What another gauge or material at one place changes. Bounds of the differences are not given: the same
/// lengths and mostly the same constants go into both sides.
struct StringChange {
    StringFigures before;
    StringFigures after;
    Newtons tension_rise;
    double tension_ratio = 1.0;   ///< after / before
    double stiffness_ratio = 1.0; ///< after / before: what the finger notices
    Newtons total_before;
    Newtons total_after;
};

/// Returns  the change, or not_found when the plan has no string at `place`
[[nodiscard]] Result<StringChange> change_of(const StringingPlan& plan, StringPlace place,
                                             const StringSpec& new_spec, const MaterialTable& materials,
                                             const MeasuringSlack& slack = {});

} // namespace harpkeep
