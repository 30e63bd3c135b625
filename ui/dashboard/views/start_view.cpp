// SPDX-License-Identifier: MIT
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/office_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/harp_drawing.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

/// The strings of the harp that is being entered, so that the choice is seen.
void show_wished_harp(const Ui& ui, const StartState& state, float height)
{
    const auto layout = make_layout(
        {.kind = static_cast<HarpKind>(state.kind), .string_count = static_cast<int>(state.strings)});
    if (!layout) {
        paragraph(ui, layout.error().message, Tint::out);
        return;
    }
    HarpDrawing drawing;
    for (const auto& string : layout->strings)
        drawing.strings.push_back({.place = string.place, .label = harp_name(string.place)});
    show_harp_picture(ui, "start.harp", drawing, room(ui), height);
}

void show_harp_form(const Ui& ui, StartState& state, Actions& actions)
{
    const Card card{ui, "start.form", 0.0F, true};
    subheading(ui, text::first_step);
    words(ui, text::harp_name_label);
    text_field(ui, "start.name", state.name, std::min(card.inner_width(), 320.0F), text::harp_name_hint,
               text::harp_name_why);
    words(ui, text::harp_kind_label);
    const std::vector<std::string> kinds{text::harp_kinds.begin(), text::harp_kinds.end()};
    const int kind = choice(ui, "start.kind", kinds, state.kind);
    if (kind != state.kind) {
        state.kind = kind;
        // The usual sizes; common practice.
        state.strings = kind == 0 ? 47.0 : kind == 1 ? 40.0 : 34.0;
    }
    number_field(ui, "start.strings", text::strings_label, state.strings, 1.0, 1.0, 60.0, 0,
                 text::strings_why);
    show_wished_harp(ui, state, std::clamp(0.24F * card.inner_width(), 170.0F, 320.0F));
    if (button(ui, "start.add_harp", text::add_harp, {}, Weight::chief))
        actions.push_back(AddHarp{state.name, static_cast<HarpKind>(state.kind),
                                  static_cast<int>(std::lround(state.strings))});
}

std::pair<const char*, const char*> words_for(EmptyPage::Why why)
{
    switch (why) {
    case EmptyPage::Why::no_harp:
        return {text::empty_no_harp, text::empty_no_harp_next};
    case EmptyPage::Why::no_check:
        return {text::empty_no_check, text::empty_no_check_next};
    case EmptyPage::Why::no_plan:
        return {text::empty_no_plan, text::empty_no_plan_next};
    case EmptyPage::Why::no_climate:
        return {text::empty_no_climate, text::empty_no_climate_next};
    case EmptyPage::Why::no_data:
        break;
    }
    return {text::empty_no_data, text::empty_no_data_next};
}

} // namespace

Actions draw_start(const Ui& ui, StartState& state)
{
    Actions actions;
    heading(ui, text::welcome);
    paragraph(ui, text::welcome_text, Tint::ink, std::min(room(ui), 820.0F));
    const float whole = room(ui);
    const bool two_columns = whole >= 760.0F;
    {
        const Column left{ui, "start.left", two_columns ? 0.55F * whole : 0.0F, two_columns};
        show_harp_form(ui, state, actions);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "start.right", 0.0F, two_columns};
    {
        const Card card{ui, "start.second"};
        subheading(ui, text::second_step);
        paragraph(ui, text::second_step_text, Tint::quiet_ink);
    }
    {
        const Card card{ui, "start.third"};
        subheading(ui, text::third_step);
        paragraph(ui, text::third_step_text, Tint::quiet_ink);
    }
    {
        const Card card{ui, "start.look"};
        subheading(ui, text::or_look_around);
        paragraph(ui, text::open_example_why, Tint::quiet_ink);
        if (button(ui, "start.open_example", text::open_example, text::open_example_why))
            actions.push_back(OpenExample{});
        if (button(ui, "start.open_ledger", text::open_other_ledger, text::open_other_ledger_why))
            actions.push_back(ChooseFile{ChooseFile::Purpose::open_ledger});
    }
    return actions;
}

Actions draw(const Ui& ui, const EmptyPage& model, EmptyState& state)
{
    Actions actions;
    const Card card{ui, "empty.card", std::min(room(ui), 640.0F)};
    const bool no_harp = model.why == EmptyPage::Why::no_harp;
    const auto [headline, next] = words_for(model.why);
    {
        const FontGuard font{ui.fonts.heading};
        paragraph(ui, headline);
    }
    paragraph(ui, next);
    HarpDrawing drawing;
    for (const StringPlace place : model.places)
        drawing.strings.push_back({.place = place, .label = "", .faint = true});
    if (model.places.empty()) { // no harp yet: the usual one
        const auto usual = make_layout({});
        for (const auto& string : usual->strings)
            drawing.strings.push_back({.place = string.place, .label = "", .faint = true});
    }
    show_harp_picture(ui, "empty.harp", drawing, card.inner_width(), 180.0F);
    if (no_harp) {
        if (button(ui, "empty.new_harp", text::new_harp, text::new_harp_why, Weight::chief))
            actions.push_back(ShowFirstStart{});
        flow(ui, text::open_example);
        if (button(ui, "empty.open_example", text::open_example, text::open_example_why))
            actions.push_back(OpenExample{});
        return actions;
    }
    if (model.why == EmptyPage::Why::no_plan) {
        show_plan_form(ui, "empty.plan", model.places, state.plan, actions);
        return actions;
    }
    if (model.why == EmptyPage::Why::no_climate) {
        if (button(ui, "empty.import", text::import_climate, text::import_climate_why, Weight::chief))
            actions.push_back(ChooseFile{ChooseFile::Purpose::climate_table});
        return actions;
    }
    if (button(ui, "empty.start_check", text::start_check, text::start_check_why, Weight::chief))
        actions.push_back(GoTo{Page::guided});
    flow(ui, text::check_a_recording);
    if (button(ui, "empty.check_recording", text::check_a_recording, text::check_a_recording_why))
        actions.push_back(ChooseFile{ChooseFile::Purpose::recording});
    return actions;
}

} // namespace harpkeep::dashboard
