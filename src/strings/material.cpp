// SPDX-License-Identifier: MIT
#include "strings/material.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

namespace harpkeep {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<std::string_view, 4> sureness_names{"measured", "sure", "fairly sure", "weak"};

MaterialConstant remembered(double low, double high, Sureness sureness)
{
    return {.value = 0.5 * (low + high), .low = low, .high = high, .sureness = sureness};
}

Json json_of(const MaterialConstant& constant)
{
    return {{"value", constant.value},
            {"low", constant.low},
            {"high", constant.high},
            {"sureness", std::string{sureness_name(constant.sureness)}},
            {"origin", constant.origin}};
}

Result<MaterialConstant> constant_from(const Json& json, const std::string& what)
{
    const auto sureness = sureness_from_name(json.at("sureness").get<std::string>());
    if (!sureness)
        return failure(ErrorCode::unusable_input,
                       what + ": \"sureness\" is one of measured, sure, fairly sure, weak");
    MaterialConstant constant{.value = json.at("value").get<double>(),
                              .low = json.at("low").get<double>(),
                              .high = json.at("high").get<double>(),
                              .sureness = *sureness,
                              .origin = json.at("origin").get<std::string>()};
    const bool ordered =
        0.0 < constant.low && constant.low <= constant.value && constant.value <= constant.high;
    if (!ordered)
        return failure(ErrorCode::unusable_input,
                       fmt::format("{}: needs 0 < low <= value <= high, found {} <= {} <= {}", what,
                                   constant.low, constant.value, constant.high));
    return constant;
}

Result<std::optional<MaterialConstant>> optional_constant(const Json& json, const char* key,
                                                          const std::string& name)
{
    if (!json.contains(key)) return std::nullopt;
    auto constant = constant_from(json.at(key), fmt::format("material \"{}\", {}", name, key));
    if (!constant) return failure(constant.error());
    return *std::move(constant);
}

Result<Material> material_from(const Json& json)
{
    Material material{.name = json.at("name").get<std::string>()};
    if (material.name.empty())
        return failure(ErrorCode::unusable_input, "a material has an empty name: give it one");
    auto density =
        constant_from(json.at("density_kg_m3"), fmt::format("material \"{}\", density_kg_m3", material.name));
    if (!density) return failure(density.error());
    auto young = optional_constant(json, "young_modulus_mpa", material.name);
    if (!young) return failure(young.error());
    auto breaking = optional_constant(json, "breaking_stress_mpa", material.name);
    if (!breaking) return failure(breaking.error());
    material.density_kg_m3 = *std::move(density);
    material.young_modulus_mpa = *std::move(young);
    material.breaking_stress_mpa = *std::move(breaking);
    return material;
}

Result<MaterialTable> table_from(const Json& json)
{
    MaterialTable table;
    for (const auto& entry : json.at("materials")) {
        auto material = material_from(entry);
        if (!material) return failure(material.error());
        if (find_material(table, material->name) != nullptr)
            return failure(ErrorCode::unusable_input,
                           fmt::format("material \"{}\" is listed twice: keep one", material->name));
        table.materials.push_back(*std::move(material));
    }
    return table;
}

} // namespace

std::string_view sureness_name(Sureness sureness)
{
    return sureness_names[static_cast<std::size_t>(sureness)];
}

std::optional<Sureness> sureness_from_name(std::string_view name)
{
    const auto* const found = std::find(sureness_names.begin(), sureness_names.end(), name);
    if (found == sureness_names.end()) return std::nullopt;
    return static_cast<Sureness>(found - sureness_names.begin());
}

// All ranges from memory, with the sureness beside each; the narrow ones of the metals allow for alloys.
MaterialTable remembered_materials()
{
    using enum Sureness;
    return {{
        {"gut", remembered(1270, 1350, fairly), remembered(5000, 7000, fairly), remembered(300, 400, fairly)},
        {"nylon", remembered(1060, 1150, fairly), remembered(2500, 10000, weak),
         remembered(300, 400, fairly)},
        {"fluorocarbon", remembered(1760, 1800, sure), remembered(3000, 10000, weak),
         remembered(500, 700, weak)},
        {"steel", remembered(7800, 7900, sure), remembered(200000, 210000, sure),
         remembered(2000, 3000, sure)},
        {"copper", remembered(8900, 9020, sure), std::nullopt, std::nullopt},
        {"silver", remembered(10400, 10580, sure), std::nullopt, std::nullopt},
        {"phosphor bronze", remembered(8750, 8850, sure), std::nullopt, std::nullopt},
    }};
}

const Material* find_material(const MaterialTable& table, std::string_view name)
{
    const auto found = std::find_if(table.materials.begin(), table.materials.end(),
                                    [name](const Material& material) { return material.name == name; });
    return found == table.materials.end() ? nullptr : &*found;
}

Result<Material> material_named(const MaterialTable& table, std::string_view name)
{
    if (const Material* found = find_material(table, name)) return *found;
    std::string known;
    for (const auto& material : table.materials) known += (known.empty() ? "" : ", ") + material.name;
    return failure(ErrorCode::not_found,
                   fmt::format("no material \"{}\" in the table; it has: {}", name, known));
}

std::string materials_to_json(const MaterialTable& table)
{
    Json list = Json::array();
    for (const auto& material : table.materials) {
        Json entry{{"name", material.name}, {"density_kg_m3", json_of(material.density_kg_m3)}};
        if (material.young_modulus_mpa) entry["young_modulus_mpa"] = json_of(*material.young_modulus_mpa);
        if (material.breaking_stress_mpa)
            entry["breaking_stress_mpa"] = json_of(*material.breaking_stress_mpa);
        list.push_back(std::move(entry));
    }
    return Json{{"materials", std::move(list)}}.dump(2) + "\n";
}

Result<MaterialTable> materials_from_json(std::string_view json)
{
    try {
        return table_from(Json::parse(json));
    } catch (const Json::exception& error) {
        return failure(ErrorCode::unusable_input,
                       fmt::format("reading a table of materials: {}", error.what()));
    }
}

MaterialTable merged(MaterialTable base, const MaterialTable& changes)
{
    for (const auto& change : changes.materials) {
        const auto same = std::find_if(base.materials.begin(), base.materials.end(),
                                       [&](const Material& m) { return m.name == change.name; });
        if (same == base.materials.end())
            base.materials.push_back(change);
        else
            *same = change;
    }
    return base;
}

} // namespace harpkeep
