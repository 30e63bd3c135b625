// SPDX-License-Identifier: MIT
#include "ui/dashboard/views/plan_form.hpp"

#include "strings/material.hpp"
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <algorithm>
#include <charconv>

namespace harpkeep::dashboard {

namespace {

void labelled_field(const Ui& ui, std::string_view name, const char* label, std::string& value,
                    const char* why)
{
    ImGui::AlignTextToFramePadding();
    words(ui, label);
    ImGui::SameLine();
    text_field(ui, name, value, 74.0F, text::millimetres_hint, why);
}

} // namespace

const MaterialNames& material_names()
{
    static const MaterialNames names = [] {
        MaterialNames out;
        out.wraps.emplace_back(text::no_wrap);
        for (const auto& material : remembered_materials().materials) {
            if (material.breaking_stress_mpa) out.strings.push_back(material.name);
            out.wraps.push_back(material.name);
        }
        return out;
    }();
    return names;
}

std::optional<double> positive_number(const std::string& text)
{
    std::string plain = text;
    std::replace(plain.begin(), plain.end(), ',', '.');
    const auto first = plain.find_first_not_of(' ');
    const auto last = plain.find_last_not_of(' ');
    if (first == std::string::npos) return std::nullopt;
    double value = 0.0;
    const char* end = plain.data() + last + 1;
    const auto [rest, error] = std::from_chars(plain.data() + first, end, value);
    if (error != std::errc{} || rest != end || !(value > 0.0) || value > 1e5) return std::nullopt;
    return value;
}

void show_make_fields(const Ui& ui, std::string_view name, MakeFormState& state)
{
    const std::string base{name};
    const auto& names = material_names();
    state.material =
        drop_list(ui, base + ".material", names.strings, state.material, 130.0F, text::material_why);
    flow(ui, text::gauge_field_room);
    labelled_field(ui, base + ".gauge", text::gauge_short, state.gauge_mm, text::gauge_field_why);
    flow(ui, text::gauge_field_room);
    ImGui::AlignTextToFramePadding();
    words(ui, text::wrap_label);
    ImGui::SameLine();
    state.wrap = drop_list(ui, base + ".wrap", names.wraps, state.wrap, 130.0F, text::wrap_why);
    if (state.wrap == 0) return;
    flow(ui, text::gauge_field_room);
    labelled_field(ui, base + ".wrap_outer", text::wrap_outer_label, state.wrap_outer_mm,
                   text::wrap_outer_why);
}

std::optional<MakeChoice> make_choice(const MakeFormState& state)
{
    const auto& names = material_names();
    const auto gauge = positive_number(state.gauge_mm);
    if (!gauge) return std::nullopt;
    MakeChoice choice{.material = names.strings[static_cast<std::size_t>(state.material)],
                      .gauge_mm = *gauge};
    if (state.wrap == 0) return choice;
    const auto outer = positive_number(state.wrap_outer_mm);
    if (!outer || *outer <= *gauge) return std::nullopt;
    choice.wrap_material = names.wraps[static_cast<std::size_t>(state.wrap)];
    choice.wrap_outer_mm = *outer;
    return choice;
}

void show_plan_form(const Ui& ui, std::string_view name, const std::vector<StringPlace>& places,
                    PlanFormState& state, Actions& actions)
{
    if (places.empty()) return;
    const std::string base{name};
    const auto count = static_cast<int>(places.size());
    state.place = std::clamp(state.place, 0, count - 1);
    std::vector<std::string> labels;
    for (int i = 0; i < count; ++i)
        labels.push_back(name_of(ui, places[static_cast<std::size_t>(count - 1 - i)], places.back()));
    state.place = drop_list(ui, base + ".place", labels, state.place, 90.0F, text::plan_place_why);
    flow(ui, text::gauge_field_room);
    labelled_field(ui, base + ".length", text::length_label, state.length_mm, text::length_why);
    show_make_fields(ui, base, state.make);
    if (!state.trouble.empty()) paragraph(ui, state.trouble, Tint::out);
    if (!button(ui, base + ".keep", text::plan_keep, text::plan_keep_why)) return;
    const auto make = make_choice(state.make);
    const auto length = positive_number(state.length_mm);
    state.trouble = !length ? text::length_wrong : !make ? text::make_wrong : "";
    if (!make || !length) return;
    actions.push_back(PlanString{places[static_cast<std::size_t>(count - 1 - state.place)], *make, *length});
    // The next place down is what is typed next.
    state.place = std::min(state.place + 1, count - 1);
}

} // namespace harpkeep::dashboard
