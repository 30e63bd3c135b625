// SPDX-License-Identifier: MIT
#include "strings/example_stringing.hpp"

#include "harp/expected_pitch.hpp"
#include "strings/tension.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep {

namespace {

// Every number in this file is invented; see the header.

/// Diatonic steps below 0G, the top string of a concert harp.
double steps_below_top(StringPlace place)
{
    constexpr StringPlace top{Letter::G, 7};
    return top.diatonic_index() - place.diatonic_index();
}

Millimetres invented_length(double steps)
{
    return Millimetres{std::round(1550.0 / (1.0 + std::exp((28.0 - steps) / 8.5)))};
}

Newtons invented_tension(HarpKind kind, double steps)
{
    const double pull_n = 70.0 + 300.0 * std::pow(std::max(steps, 0.0) / 46.0, 1.2);
    return Newtons{kind == HarpKind::lever ? 0.55 * pull_n : pull_n};
}

Millimetres rounded_to(double step_mm, double diameter_m)
{
    return Millimetres{std::max(step_mm, std::round(1e3 * diameter_m / step_mm) * step_mm)};
}

constexpr double nylon_kg_m3 = 1105.0;
constexpr double gut_kg_m3 = 1310.0;
constexpr double steel_kg_m3 = 7850.0;
constexpr double copper_kg_m3 = 8960.0;

StringSpec plain_spec(const char* material, double density_kg_m3, double mass_kg_m)
{
    return {.material = material,
            .diameter = rounded_to(0.02, std::sqrt(4.0 * mass_kg_m / (std::numbers::pi * density_kg_m3)))};
}

StringSpec wound_spec(double mass_kg_m, double pull_n)
{
    constexpr double core_stress_pa = 700e6;
    const auto core = rounded_to(0.05, std::sqrt(4.0 * pull_n / (std::numbers::pi * core_stress_pa)));
    const double core_m = 1e-3 * core.value();
    const double core_mass = steel_kg_m3 * 0.25 * std::numbers::pi * core_m * core_m;
    const double ring_m2 = std::max(mass_kg_m - core_mass, 0.2 * mass_kg_m) /
                           (copper_kg_m3 * 0.25 * std::numbers::pi * 0.25 * std::numbers::pi);
    return {.material = "steel",
            .diameter = core,
            .wrap = Wrap{.material = "copper",
                         .outer_diameter = rounded_to(0.02, std::sqrt(ring_m2 + core_m * core_m))}};
}

bool is_wound(StringPlace place)
{
    return place <= StringPlace{Letter::G, 2}; // 5G and below
}

StringSpec invented_spec(HarpKind kind, StringPlace place, double mass_kg_m, double pull_n)
{
    if (is_wound(place)) return wound_spec(mass_kg_m, pull_n);
    if (kind == HarpKind::lever || place.harp_octave() <= 1)
        return plain_spec("nylon", nylon_kg_m3, mass_kg_m);
    return plain_spec("gut", gut_kg_m3, mass_kg_m);
}

} // namespace

StringingPlan example_stringing(const HarpLayout& layout, Hertz a4)
{
    StringingPlan plan{.strings = {},
                       .origin = "invented for demonstration; no real harp has this stringing"};
    for (const auto& string : layout.strings) {
        const double steps = steps_below_top(string.place);
        const auto length = invented_length(steps);
        const auto pitch = equal_temperament(key_number(string.place, string.open_alteration), a4);
        const auto pull = invented_tension(layout.kind, steps);
        const double speed_m_s = 2e-3 * length.value() * pitch.value();
        const double mass_kg_m = pull.value() / (speed_m_s * speed_m_s);
        plan.strings.push_back({.place = string.place,
                                .length = length,
                                .spec = invented_spec(layout.kind, string.place, mass_kg_m, pull.value()),
                                .open_pitch = pitch});
    }
    return plan;
}

} // namespace harpkeep
