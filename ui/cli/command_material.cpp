// SPDX-License-Identifier: MIT
#include "db/ledger/file_bytes.hpp"
#include "strings/material.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"
#include "ui/cli/verb.hpp"
#include "ui/support/clock.hpp"
#include "ui/support/material_setting.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

constexpr std::int64_t largest_table_bytes = 1'048'576;

struct MaterialWords {
    std::string name;
    std::string density_kg_m3;
    std::string young_modulus_mpa;
    std::string breaking_stress_mpa;
    std::string sureness = "measured";
    std::string origin = "set by the owner";
    std::string file;
    bool all = false;
};

std::optional<double> number_from(std::string_view text)
{
    double number = 0.0;
    const auto end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, number);
    if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
    return number;
}

/// One word for each, which a shell can complete; CLI11 allows no other.
Sureness sureness_said(const std::string& word)
{
    return sureness_from_name(word).value_or(Sureness::fairly);
}

/// "1290", or "1280:1300" from the least to the most it may be.
Result<MaterialConstant> constant_from(const std::string& text, const MaterialWords& words)
{
    const auto colon = text.find(':');
    const auto low = number_from(std::string_view(text).substr(0, colon));
    const auto high =
        colon == std::string::npos ? low : number_from(std::string_view(text).substr(colon + 1));
    // Above a million is steel in pascals or grams in a cubic metre: another unit than the option's.
    if (!low || !high || !(*low > 0.0) || !(*high >= *low) || !(*high <= 1e6))
        return failure(
            ErrorCode::invalid_argument,
            fmt::format("\"{}\" is no constant; write one figure above zero, as 1290, or the least "
                        "and the most it may be, as 1280:1300",
                        text));
    return MaterialConstant{.value = 0.5 * (*low + *high),
                            .low = *low,
                            .high = *high,
                            .sureness = sureness_said(words.sureness),
                            .origin = words.origin};
}

Result<void> put(const std::string& text, const MaterialWords& words, std::optional<MaterialConstant>& into)
{
    if (text.empty()) return {};
    const auto constant = constant_from(text, words);
    if (!constant) return failure(constant.error());
    into = *constant;
    return {};
}

/// The material as it is known with what was said put in its place.
Result<Material> changed_material(const MaterialTable& known, const MaterialWords& words)
{
    const Material* const old = find_material(known, words.name);
    Material material = old != nullptr ? *old : Material{.name = words.name};
    std::optional<MaterialConstant> density;
    for (const auto& done : {put(words.density_kg_m3, words, density),
                             put(words.young_modulus_mpa, words, material.young_modulus_mpa),
                             put(words.breaking_stress_mpa, words, material.breaking_stress_mpa)})
        if (!done) return failure(done.error());
    if (words.density_kg_m3.empty() && words.young_modulus_mpa.empty() && words.breaking_stress_mpa.empty())
        return failure(ErrorCode::invalid_argument,
                       "say which constant: --density, --young or --breaking, one or more of them");
    if (density)
        material.density_kg_m3 = *density;
    else if (old == nullptr)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" is a new material: give its --density too", words.name));
    return material;
}

std::string range_text(const std::optional<MaterialConstant>& constant)
{
    if (!constant) return "";
    if (constant->low == constant->high) return fmt::format("{:g}", constant->value);
    return fmt::format("{:g} to {:g}", constant->low, constant->high);
}

std::string origin_text(const std::optional<MaterialConstant>& constant)
{
    return constant ? fmt::format("{} ({})", constant->origin, sureness_name(constant->sureness)) : "";
}

void add_rows(Table& table, const Material& material)
{
    const std::pair<const char*, std::optional<MaterialConstant>> constants[] = {
        {"density, kg/m3", material.density_kg_m3},
        {"Young's modulus, MPa", material.young_modulus_mpa},
        {"breaking stress, MPa", material.breaking_stress_mpa}};
    std::string name = material.name;
    for (const auto& [what, constant] : constants) {
        if (!constant) continue;
        table.add_row({name, what, range_text(constant), origin_text(constant)});
        name.clear();
    }
}

void show(const Common& common, const MaterialTable& materials)
{
    if (common.json) {
        print_json(Json::parse(materials_to_json(materials)));
        return;
    }
    Table table{{{"Material"}, {"Constant"}, {"Least to most"}, {"Where it comes from"}}};
    for (const auto& material : materials.materials) add_rows(table, material);
    table.print();
    print_line(
        "What is from memory was not looked up: put measured figures in its place with `harpkeep material "
        "set`.");
}

Result<void> list(const Common& common, const NoWords&)
{
    const auto ledger = open_ledger(common, db::Access::read);
    if (!ledger) return failure(ledger.error());
    const auto materials = ui::materials_of(*ledger);
    if (!materials) return failure(materials.error());
    show(common, *materials);
    return {};
}

Result<void> keep(const Common& common, db::Ledger& ledger, const MaterialTable& own)
{
    const auto kept = ui::keep_own_materials(ledger, ui::author(), own);
    if (!kept) return failure(kept.error());
    show(common, merged(remembered_materials(), own));
    return {};
}

Result<void> set(const Common& common, const MaterialWords& words)
{
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto own = ui::own_materials(*ledger);
    if (!own) return failure(own.error());
    const auto material = changed_material(merged(remembered_materials(), *own), words);
    if (!material) return failure(material.error());
    return keep(common, *ledger, merged(*own, {{*material}}));
}

Result<void> import_table(const Common& common, const MaterialWords& words)
{
    const auto bytes = db::file_bytes(words.file, largest_table_bytes);
    if (!bytes) return failure(bytes.error());
    const auto changes = materials_from_json({reinterpret_cast<const char*>(bytes->data()), bytes->size()});
    if (!changes) return failure(changes.error().within(words.file));
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    const auto own = ui::own_materials(*ledger);
    if (!own) return failure(own.error());
    return keep(common, *ledger, merged(*own, *changes));
}

Result<void> reset(const Common& common, const MaterialWords& words)
{
    if (words.name.empty() != words.all)
        return failure(ErrorCode::invalid_argument, "name the material to take back, or --all of them");
    auto ledger = open_ledger(common, db::Access::write);
    if (!ledger) return failure(ledger.error());
    auto own = ui::own_materials(*ledger);
    if (!own) return failure(own.error());
    const auto removed =
        std::erase_if(own->materials, [&](const Material& m) { return words.all || m.name == words.name; });
    if (removed == 0)
        return failure(ErrorCode::not_found,
                       words.all ? std::string("no material has been changed in this ledger")
                                 : fmt::format("\"{}\" has not been changed in this ledger", words.name));
    return keep(common, *ledger, *own);
}

} // namespace

void add_command_material(CLI::App& app, Common& common, Work& work)
{
    auto& material =
        add_noun(app, "material", "what strings are made of: density, stiffness, breaking stress");
    add_verb<NoWords>(material, common, work, "list", "the materials in use, and where each figure is from",
                      list);

    const auto setting = add_verb<MaterialWords>(material, common, work, "set",
                                                 "put your own figures in place of remembered ones", set);
    auto& words = *setting.words;
    setting.app->add_option("NAME", words.name, "gut, nylon, ... or a new one")->required();
    setting.app->add_option("--density", words.density_kg_m3,
                            "kg/m3: one figure, or least and most, as 1280:1300");
    setting.app->add_option("--young", words.young_modulus_mpa, "Young's modulus in MPa, likewise");
    setting.app->add_option("--breaking", words.breaking_stress_mpa, "breaking stress in MPa, likewise");
    setting.app->add_option("--sureness", words.sureness, "how far they can be trusted")
        ->check(CLI::IsMember({"measured", "sure", "fairly", "weak"}))
        ->capture_default_str();
    setting.app->add_option("--origin", words.origin, "where they come from")->capture_default_str();

    const auto importing =
        add_verb<MaterialWords>(material, common, work, "import",
                                "take over a table as `material list --json` prints it", import_table);
    importing.app->add_option("FILE", importing.words->file, "the table, in JSON")->required();

    const auto resetting =
        add_verb<MaterialWords>(material, common, work, "reset", "back to the remembered figures", reset);
    resetting.app->add_option("NAME", resetting.words->name, "the material");
    resetting.app->add_flag("--all", resetting.words->all, "of all materials");
}

} // namespace harpkeep::cli
