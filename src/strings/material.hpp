// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// How far a remembered constant can be trusted.
enum class Sureness {
    measured, ///< the owner measured it, or the maker states it
    sure,     ///< remembered, beyond doubt
    fairly,   ///< remembered, fairly sure
    weak,     ///< remembered, weak: take the spread seriously
};

[[nodiscard]] std::string_view sureness_name(Sureness sureness);
[[nodiscard]] std::optional<Sureness> sureness_from_name(std::string_view name);

/// One constant of a material with the range it may lie in and where it comes from. `low` and `high` are
/// bounds, not a standard uncertainty: makes and batches differ within them.
struct MaterialConstant {
    double value = 0.0;
    double low = 0.0;
    double high = 0.0;
    Sureness sureness = Sureness::weak;
    std::string origin = "from memory";

    bool operator==(const MaterialConstant&) const = default;
};

/// What a string, a core or a wrap is made of. Young's modulus and breaking stress are absent where the
/// material only ever serves as wrap, or where no figure is at hand.
struct Material {
    std::string name;
    MaterialConstant density_kg_m3;
    std::optional<MaterialConstant> young_modulus_mpa;
    std::optional<MaterialConstant> breaking_stress_mpa;

    bool operator==(const Material&) const = default;
};

/// The materials known to a calculation; names are unique.
struct MaterialTable {
    std::vector<Material> materials;

    bool operator==(const MaterialTable&) const = default;
};

/// The table to start from: every constant in it is remembered, not looked up, and says so.
///
/// Notes  No open page gave the figures of real harp strings, so spreads are wide on purpose. Replace a
///        constant by a measured one with materials_from_json().
[[nodiscard]] MaterialTable remembered_materials();

[[nodiscard]] const Material* find_material(const MaterialTable& table, std::string_view name);
/// As find_material(), or which names there are.
[[nodiscard]] Result<Material> material_named(const MaterialTable& table, std::string_view name);

/// The table as JSON, to be edited and read again. Keys carry their units.
[[nodiscard]] std::string materials_to_json(const MaterialTable& table);

/// Inverse of materials_to_json().
///
/// Returns  the table, or which entry breaks which rule: names not empty and unique; 0 < low <= value <=
///          high
[[nodiscard]] Result<MaterialTable> materials_from_json(std::string_view json);

/// `base` with the materials of `changes` put in the place of those with the same name, or added.
[[nodiscard]] MaterialTable merged(MaterialTable base, const MaterialTable& changes);

} // namespace harpkeep
