// SPDX-License-Identifier: MIT
#include "ui/dashboard/views/shared.hpp"

#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

Column::Column(const Ui& ui, const char* name, float width, bool own_scroll) : own_scroll_(own_scroll)
{
    if (own_scroll_)
        ImGui::BeginChild(name, {width > 0.0F ? ui.px(width) : 0.0F, 0.0F});
    else
        ImGui::BeginGroup();
}

Column::~Column()
{
    if (own_scroll_)
        ImGui::EndChild();
    else
        ImGui::EndGroup();
}

void show_mark(const Ui& ui, State state, float radius, Lean lean)
{
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float line = std::max(ImGui::GetTextLineHeight(), ui.px(2.0F * radius));
    const float side = ui.px(2.0F * radius + 4.0F);
    Picture picture;
    add_mark(picture, {0.5F * side / ui.scale, 0.5F * line / ui.scale}, radius, state, lean, *ui.palette);
    paint(ui, picture, at);
    ImGui::Dummy({side, line});
}

void show_advice(const Ui& ui, const Advice& advice)
{
    const float begin = ImGui::GetCursorPosX();
    show_mark(ui, advice.state);
    ImGui::SameLine();
    const float inset = ImGui::GetCursorPosX() - begin;
    {
        const GroupGuard group;
        const FontGuard bold{ui.fonts.bold};
        paragraph(ui, advice.headline);
    }
    if (advice.reason.empty()) return;
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ui.px(5.0F));
    ImGui::Indent(inset);
    paragraph(ui, advice.reason, Tint::quiet_ink);
    ImGui::Unindent(inset);
}

void show_numbered_advice(const Ui& ui, int number, const Advice& advice)
{
    const float begin = ImGui::GetCursorPosX();
    {
        const FontGuard bold{ui.fonts.bold};
        words(ui, fmt::format("{}", number), Tint::wood);
    }
    ImGui::SameLine();
    ImGui::SetCursorPosX(begin + ui.px(22.0F));
    {
        const GroupGuard group;
        {
            const FontGuard bold{ui.fonts.bold};
            paragraph(ui, advice.headline);
        }
        if (!advice.reason.empty()) {
            ImGui::SetCursorPosY(ImGui::GetCursorPosY() - ui.px(5.0F));
            paragraph(ui, advice.reason, Tint::quiet_ink);
        }
    }
}

void flow(const Ui& ui, std::string_view next_label)
{
    ImGui::SameLine();
    if (ImGui::GetContentRegionAvail().x < button_width(ui, next_label)) ImGui::NewLine();
}

void sheet_button(const Ui& ui, std::string_view name, const PrintSheet& wish, Actions& actions)
{
    const auto kind = static_cast<std::size_t>(wish.kind);
    if (button(ui, name, text::sheet_buttons[kind],
               fmt::format(text::sheet_why_format, text::sheet_holds[kind])))
        actions.push_back(wish);
}

std::string name_of(const Ui& ui, StringPlace place, StringPlace top)
{
    return place_name(place, ui.settings.names, top);
}

namespace {

/// Marks, strokes and names grow with a large drawing.
float harp_zoom(const HarpDrawing& drawing, float width, float height)
{
    return drawing_zoom(width, height, 880.0F, drawing.strips.empty() ? 190.0F : 640.0F);
}

HarpHit show_harp_columns(const Ui& ui, std::string_view name, const Picture& picture,
                          const HarpDrawing& drawing)
{
    HarpHit hit;
    const ImVec2 origin = ImGui::GetCursorScreenPos();
    const auto count = static_cast<int>(drawing.strings.size());
    const ImVec2 size{ui.px(picture.width), ui.px(picture.height)};
    if (count < 2) {
        ImGui::Dummy(size);
        return hit;
    }
    paint(ui, picture, origin);
    const std::string group{name};
    const float pitch = string_x(1, count, picture.width) - string_x(0, count, picture.width);
    for (int i = 0; i < count; ++i) {
        const IdGuard id{i};
        ImGui::SetCursorScreenPos(
            {origin.x + ui.px(string_x(i, count, picture.width) - 0.5F * pitch), origin.y});
        if (ImGui::InvisibleButton(group.c_str(), {std::max(1.0F, ui.px(pitch)), std::max(1.0F, size.y)}))
            hit.pressed = i;
        ui.registry->note(
            fmt::format("{}.{}", group, harp_name(drawing.strings[static_cast<std::size_t>(i)].place)),
            WidgetKind::item, group);
        const ImGuiContext& g = *ImGui::GetCurrentContext();
        const bool by_keys = g.NavId == g.LastItemData.ID && !g.NavDisableHighlight;
        if (by_keys && drawing.chosen != i && g.NavJustMovedToId == g.LastItemData.ID) hit.pressed = i;
        if (ImGui::IsItemHovered() && !by_keys) hit.under = i;
    }
    ImGui::SetCursorScreenPos(origin);
    ImGui::Dummy(size);
    return hit;
}

} // namespace

HarpHit show_harp(const Ui& ui, std::string_view name, const HarpDrawing& drawing, float width, float height)
{
    const float zoom = harp_zoom(drawing, width, height);
    const Ui larger = zoomed(ui, zoom);
    return show_harp_columns(
        larger, name,
        harp_picture(drawing, width / zoom, height / zoom, *ui.palette, measure_for_screen(larger)), drawing);
}

void show_harp_picture(const Ui& ui, std::string_view name, const HarpDrawing& drawing, float width,
                       float height)
{
    const float zoom = harp_zoom(drawing, width, height);
    const Ui larger = zoomed(ui, zoom);
    show_picture(larger, name,
                 harp_picture(drawing, width / zoom, height / zoom, *ui.palette, measure_for_screen(larger)));
}

std::string string_summary(const Ui& ui, const TodayModel& model, const StringToday& string)
{
    std::string out = name_of(ui, string.place, model.strings.back().place);
    const auto add = [&](Step step, const StepToday& today) {
        if (today.state == State::none) return;
        out +=
            fmt::format("\n{}: {}, {}", step_text(model.kind, step),
                        today.error_cents ? fmt::format(text::cents_format, figure_text(*today.error_cents))
                                          : std::string{text::not_measured},
                        state_word(today.state));
    };
    add(Step::lower, string.lower);
    add(Step::upper, string.upper);
    if (string.lower.state == State::none) out += std::string{"\n"} + text::no_discs;
    return out;
}

const char* state_word(State state)
{
    switch (state) {
    case State::fine:
        return text::state_fine;
    case State::watch:
        return text::state_watch;
    case State::unsure:
        return text::state_unsure;
    case State::out:
        return text::state_out;
    case State::not_measured:
        return text::state_not_measured;
    case State::none:
        break;
    }
    return "";
}

} // namespace harpkeep::dashboard
