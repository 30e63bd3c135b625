// SPDX-License-Identifier: MIT
#include "strings/material.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("materials: every remembered constant says so and carries a spread", "[strings]")
{
    const auto table = remembered_materials();
    CHECK(table.materials.size() == 7);
    for (const auto& material : table.materials) {
        CAPTURE(material.name);
        for (const auto& constant : {std::optional{material.density_kg_m3}, material.young_modulus_mpa,
                                     material.breaking_stress_mpa}) {
            if (!constant) continue;
            CHECK(constant->origin == "from memory");
            CHECK(constant->low < constant->value);
            CHECK(constant->value < constant->high);
            CHECK(constant->sureness != Sureness::measured);
        }
    }
    CHECK(find_material(table, "gut")->breaking_stress_mpa->value == 350.0); // middle of 300 to 400
    CHECK_FALSE(find_material(table, "copper")->breaking_stress_mpa);
}

TEST_CASE("materials: the table survives writing and reading", "[strings][property]")
{
    const auto table = remembered_materials();
    CHECK(materials_from_json(materials_to_json(table)).value() == table);
}

TEST_CASE("materials: an edited constant replaces the remembered one", "[strings]")
{
    const auto changes = materials_from_json(R"({"materials": [
        {"name": "gut", "density_kg_m3": {"value": 1302, "low": 1300, "high": 1304, "sureness": "measured",
                                          "origin": "weighed, twelve strings"}},
        {"name": "horsehair", "density_kg_m3": {"value": 1300, "low": 1250, "high": 1350, "sureness": "weak",
                                                "origin": "a guess"}}]})");
    REQUIRE(changes);
    const auto table = merged(remembered_materials(), *changes);
    CHECK(table.materials.size() == 8);
    CHECK(find_material(table, "gut")->density_kg_m3.value == 1302.0);
    CHECK_FALSE(find_material(table, "gut")->young_modulus_mpa); // a new entry replaces the whole material
    CHECK(find_material(table, "horsehair") != nullptr);
}

TEST_CASE("materials: what cannot be is refused with the reason", "[strings]")
{
    const auto [json, reason] = GENERATE(
        std::pair{"{", "reading a table of materials"}, std::pair{"{}", "materials"},
        std::pair{R"({"materials": [{"name": "", "density_kg_m3": {}}]})", "empty name"},
        std::pair{R"({"materials": [{"name": "gut", "density_kg_m3":
                      {"value": 5, "low": 6, "high": 7, "sureness": "weak", "origin": ""}}]})",
                  "0 < low <= value <= high"},
        std::pair{R"({"materials": [{"name": "gut", "density_kg_m3":
                      {"value": 5, "low": 4, "high": 7, "sureness": "maybe", "origin": ""}}]})",
                  "sureness"},
        std::pair{R"({"materials": [
            {"name": "gut", "density_kg_m3": {"value": 5, "low": 4, "high": 7, "sureness": "weak", "origin": ""}},
            {"name": "gut", "density_kg_m3": {"value": 5, "low": 4, "high": 7, "sureness": "weak", "origin": ""}}
        ]})",
                  "listed twice"},
        std::pair{R"({"materials": [{"name": 7, "density_kg_m3": 8}]})", "reading a table of materials"});
    CAPTURE(json);
    const auto table = materials_from_json(json);
    REQUIRE_FALSE(table);
    CHECK(table.error().message.find(reason) != std::string::npos);
}

TEST_CASE("materials: an unknown name lists the known ones", "[strings]")
{
    const auto missing = material_named(remembered_materials(), "silk");
    REQUIRE_FALSE(missing);
    CHECK(missing.error().code == ErrorCode::not_found);
    CHECK(missing.error().message.find("gut, nylon, fluorocarbon") != std::string::npos);
}
