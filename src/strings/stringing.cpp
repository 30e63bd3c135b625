// SPDX-License-Identifier: MIT
#include "strings/stringing.hpp"

#include "strings/inharmonicity.hpp"
#include "strings/string_feel.hpp"
#include "strings/tension.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep {

namespace {

/// Which end of its bounds each input is taken from.
enum class End { low, middle, high };

constexpr End opposite(End end)
{
    return end == End::low ? End::high : end == End::high ? End::low : End::middle;
}

double at(const MaterialConstant& constant, End end)
{
    return end == End::low ? constant.low : end == End::high ? constant.high : constant.value;
}

Millimetres at(Millimetres value, Millimetres slack, End end)
{
    // A thin string is never thinner than half of what was read, however coarse the gauge.
    if (end == End::low) return std::max(value - slack, value * 0.5);
    return end == End::high ? value + slack : value;
}

/// The materials of one string, looked up once.
struct Ingredients {
    Material core;
    std::optional<Material> wrap;
};

/// A weighed string needs no density: its materials may be unknown to the table.
Result<Ingredients> ingredients_of(const StringSpec& spec, const MaterialTable& materials)
{
    if (spec.weighed && find_material(materials, spec.material) == nullptr)
        return Ingredients{.core = {.name = spec.material}, .wrap = std::nullopt};
    auto core = material_named(materials, spec.material);
    if (!core) return failure(core.error());
    Ingredients found{.core = *std::move(core), .wrap = std::nullopt};
    if (!spec.wrap || spec.weighed) return found;
    auto wrap = material_named(materials, spec.wrap->material);
    if (!wrap) return failure(wrap.error());
    found.wrap = *std::move(wrap);
    return found;
}

Result<void> sensible(const StrungPlace& string)
{
    const auto wrong = [&string](const std::string& what) {
        return failure(ErrorCode::unusable_input, fmt::format("{}: {}", harp_name(string.place), what));
    };
    const auto& spec = string.spec;
    if (string.length.value() <= 0.0 || string.open_pitch.value() <= 0.0)
        return wrong("length and pitch must be greater than 0");
    if (!spec.diameter && !spec.weighed) return wrong("needs a diameter or a weighed mass");
    if (spec.diameter && spec.diameter->value() <= 0.0) return wrong("diameter must be greater than 0");
    if (spec.wrap && spec.diameter && spec.wrap->outer_diameter < *spec.diameter)
        return wrong(fmt::format("outer diameter {} mm is less than the core's {} mm",
                                 spec.wrap->outer_diameter.value(), spec.diameter->value()));
    if (spec.wrap && (spec.wrap->packing <= 0.0 || spec.wrap->packing > 1.0))
        return wrong(fmt::format("packing {} is not between 0 and 1", spec.wrap->packing));
    if (spec.weighed &&
        (spec.weighed->value.value() <= 0.0 || spec.weighed->standard_uncertainty.value() < 0.0))
        return wrong("weighed mass must be above 0, its uncertainty not below");
    return {};
}

/// One string with every input at one end of its bounds.
struct Corner {
    const StrungPlace& string;
    const Ingredients& made_of;
    const MeasuringSlack& slack;

    [[nodiscard]] Millimetres diameter(End end) const
    {
        return at(*string.spec.diameter, slack.diameter, end);
    }
    [[nodiscard]] Millimetres length(End end) const { return at(string.length, slack.length, end); }

    [[nodiscard]] KilogramsPerMetre mass(End end) const
    {
        const auto& spec = string.spec;
        if (spec.weighed) {
            const auto reach = spec.weighed->standard_uncertainty * slack.weighing_coverage;
            if (end == End::low) return std::max(spec.weighed->value - reach, spec.weighed->value * 0.5);
            return end == End::high ? spec.weighed->value + reach : spec.weighed->value;
        }
        const KilogramsPerCubicMetre core_density{at(made_of.core.density_kg_m3, end)};
        if (!spec.wrap) return mass_per_metre(diameter(end), core_density);
        return wound_mass_per_metre(
            {.core_diameter = diameter(end),
             .outer_diameter = at(spec.wrap->outer_diameter, slack.diameter, end),
             .core_density = core_density,
             .wrap_density = KilogramsPerCubicMetre{at(made_of.wrap->density_kg_m3, end)},
             .packing = spec.wrap->packing});
    }
    [[nodiscard]] Newtons pull(End end) const { return tension(mass(end), length(end), string.open_pitch); }

    /// A plain string of known density needs no diameter: rho (2 L f)^2.
    [[nodiscard]] Megapascals load(End end) const
    {
        const auto& spec = string.spec;
        if (!spec.wrap && !spec.weighed)
            return plain_stress(KilogramsPerCubicMetre{at(made_of.core.density_kg_m3, end)}, length(end),
                                string.open_pitch);
        return stress(pull(end), diameter(opposite(end)));
    }
    /// With T = mu (2 L f)^2, B falls with mu and L^4 and rises with E and d^4; for a plain string d^4/mu
    /// leaves d^2.
    [[nodiscard]] double stiffness_coefficient(const MaterialConstant& young, End end) const
    {
        const Megapascals modulus{at(young, end)};
        const auto span = length(opposite(end));
        if (string.spec.wrap || string.spec.weighed)
            return inharmonicity(modulus, diameter(end),
                                 tension(mass(opposite(end)), span, string.open_pitch), span);
        const KilogramsPerCubicMetre density{at(made_of.core.density_kg_m3, opposite(end))};
        const auto thick = diameter(end);
        return inharmonicity(modulus, thick, tension(mass_per_metre(thick, density), span, string.open_pitch),
                             span);
    }
    [[nodiscard]] NewtonsPerMillimetre push(End end, double coefficient) const
    {
        // T/L grows with L, so the long end belongs to the high one.
        return lateral_stiffness(pull(end), length(end), slack.pluck_fraction, coefficient);
    }
};

template <class F>
auto bounded(F&& figure)
{
    return Bounded<decltype(figure(End::middle))>{
        .value = figure(End::middle), .low = figure(End::low), .high = figure(End::high)};
}

Sureness weakest(const StrungPlace& string, const Ingredients& made_of)
{
    auto worst = Sureness::measured;
    if (!string.spec.weighed) worst = made_of.core.density_kg_m3.sureness;
    if (!string.spec.weighed && made_of.wrap) worst = std::max(worst, made_of.wrap->density_kg_m3.sureness);
    if (made_of.core.breaking_stress_mpa) worst = std::max(worst, made_of.core.breaking_stress_mpa->sureness);
    if (made_of.core.young_modulus_mpa) worst = std::max(worst, made_of.core.young_modulus_mpa->sureness);
    return worst;
}

/// What takes the diameter of the part that carries the load.
void add_load_figures(StringFigures& figures, const Corner& corner, const Material& core)
{
    figures.stress = bounded([&](End end) { return corner.load(end); });
    if (const auto& breaking = core.breaking_stress_mpa)
        figures.share_of_breaking =
            bounded([&](End end) { return corner.load(end) / Megapascals{at(*breaking, opposite(end))}; });
    if (const auto& young = core.young_modulus_mpa)
        figures.inharmonicity = bounded([&](End end) { return corner.stiffness_coefficient(*young, end); });
}

} // namespace

Result<StringFigures> figures_of(const StrungPlace& string, const MaterialTable& materials,
                                 const MeasuringSlack& slack)
{
    if (const auto fit = sensible(string); !fit) return failure(fit.error());
    auto made_of = ingredients_of(string.spec, materials);
    if (!made_of) return failure(made_of.error().within(harp_name(string.place)));

    const Corner corner{string, *made_of, slack};
    StringFigures figures{.place = string.place, .open_pitch = string.open_pitch};
    figures.mass_per_metre = bounded([&](End end) { return corner.mass(end); });
    figures.tension = bounded([&](End end) { return corner.pull(end); });
    if (string.spec.diameter) add_load_figures(figures, corner, made_of->core);
    figures.inharmonicity_is_floor = string.spec.wrap.has_value();
    const auto b = figures.inharmonicity.value_or(Bounded<double>{});
    figures.stiffness = {.value = corner.push(End::middle, b.value),
                         .low = corner.push(End::low, b.low),
                         .high = corner.push(End::high, b.high)};
    figures.sounding_mass = string_mass(figures.mass_per_metre.value, string.length);
    figures.weakest_constant = weakest(string, *made_of);
    return figures;
}

Result<HarpPull> pull_of(const StringingPlan& plan, const MaterialTable& materials,
                         const MeasuringSlack& slack)
{
    HarpPull pull;
    for (const auto& string : plan.strings) {
        auto figures = figures_of(string, materials, slack);
        if (!figures) return failure(figures.error());
        pull.total.value += figures->tension.value;
        pull.total.low += figures->tension.low;
        pull.total.high += figures->tension.high;
        pull.mass += figures->sounding_mass;
        pull.strings.push_back(*std::move(figures));
    }
    return pull;
}

Result<StringChange> change_of(const StringingPlan& plan, StringPlace place, const StringSpec& new_spec,
                               const MaterialTable& materials, const MeasuringSlack& slack)
{
    const auto found = std::find_if(plan.strings.begin(), plan.strings.end(),
                                    [place](const StrungPlace& s) { return s.place == place; });
    if (found == plan.strings.end())
        return failure(ErrorCode::not_found,
                       fmt::format("the stringing plan has no string {}", harp_name(place)));
    auto whole = pull_of(plan, materials, slack);
    if (!whole) return failure(whole.error());
    auto changed = *found;
    changed.spec = new_spec;
    auto after = figures_of(changed, materials, slack);
    if (!after) return failure(after.error());

    const auto index = static_cast<std::size_t>(found - plan.strings.begin());
    StringChange change{.before = whole->strings[index], .after = *std::move(after)};
    change.tension_rise = change.after.tension.value - change.before.tension.value;
    change.tension_ratio = change.after.tension.value / change.before.tension.value;
    change.stiffness_ratio = change.after.stiffness.value / change.before.stiffness.value;
    change.total_before = whole->total.value;
    change.total_after = whole->total.value + change.tension_rise;
    return change;
}

} // namespace harpkeep
