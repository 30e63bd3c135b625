// SPDX-License-Identifier: MIT
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/marks.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"
#include "ui/dashboard/widgets/table.hpp"

#include <fmt/format.h>
#include <imgui_internal.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

void show_tools(const Ui& ui, const std::string& name, TableState& state, Actions& actions)
{
    const auto& model = state.model;
    const float beside = room(ui) - button_width(ui, text::export_csv) / ui.scale - 10.0F;
    if (text_field(ui, name + ".filter", state.filter, std::min(260.0F, beside), text::filter_hint,
                   text::filter_why))
        state.arranged = false;
    ImGui::SameLine();
    if (button(ui, name + ".export_csv", text::export_csv, text::export_csv_why))
        actions.push_back(ExportTable{name + ".csv", csv_of(model, state.order)});
    if (state.order.size() != model.rows.size()) {
        ImGui::SameLine();
        ImGui::AlignTextToFramePadding();
        words(ui, fmt::format(text::shown_of_format, state.order.size(), model.rows.size()), Tint::quiet_ink);
    }
}

using Columns = std::vector<std::size_t>;

void show_head(const Ui& ui, const std::string& name, TableState& state, const Columns& shown)
{
    const auto& model = state.model;
    ImGui::TableNextRow(ImGuiTableRowFlags_Headers);
    for (const auto index : shown) {
        const auto& column = model.columns[index];
        const auto c = static_cast<int>(index);
        ImGui::TableNextColumn();
        const FontGuard bold{ui.fonts.bold};
        const bool sorted = c == state.sort_column;
        const std::string label =
            fmt::format("{}{}###{}.head.{}", column.title,
                        sorted ? state.descending ? " \u2193" : " \u2191" : "", name, c);
        ImGui::PushStyleVar(ImGuiStyleVar_SelectableTextAlign, ImVec2{column.figures ? 1.0F : 0.0F, 0.5F});
        const bool pressed = ImGui::Selectable(label.c_str(), false);
        ImGui::PopStyleVar();
        if (pressed) {
            state.descending = sorted && !state.descending;
            state.sort_column = c;
            state.arranged = false;
        }
        ui.registry->note(fmt::format("{}.head.{}", name, c), WidgetKind::button, name + ".head");
        const FontGuard plain{ui.fonts.body};
        explain_last(ui, column.why.empty() ? text::sort_why : column.why);
    }
}

/// Returns whether all of it was seen.
bool show_cell(const Ui& ui, const TableColumn& column, const TableCell& cell)
{
    if (cell.mark) {
        const float side = ImGui::GetTextLineHeight();
        const ImVec2 at = ImGui::GetCursorScreenPos();
        Picture mark;
        add_mark(mark, {0.5F * side / ui.scale, 0.5F * side / ui.scale}, 5.5F, *cell.mark, Lean::wide,
                 *ui.palette);
        paint(ui, mark, at);
        ImGui::Dummy({side, side});
        ImGui::SameLine(0.0F, ui.px(5.0F));
    }
    const float free = ImGui::GetContentRegionAvail().x;
    const float left = free - ImGui::CalcTextSize(cell.text.c_str()).x;
    const bool whole = left >= -1.0F; // a column may be narrower than its text by the fraction of a pixel
    if (column.figures) ImGui::SetCursorPosX(ImGui::GetCursorPosX() + std::max(0.0F, left));
    if (whole)
        words(ui, cell.text, cell.tint);
    else
        cut_words(ui, cell.text, free, cell.tint);
    return whole;
}

/// What of a row is not to be read in the table.
std::string unseen_of(const TableModel& model, const TableRow& row, const std::vector<bool>& seen)
{
    std::string out;
    for (std::size_t c = 0; c < model.columns.size(); ++c)
        if (!seen[c] && !row.cells[c].text.empty())
            out +=
                fmt::format("{}{}: {}", out.empty() ? "" : "\n", model.columns[c].title, row.cells[c].text);
    return out;
}

void show_row(const Ui& ui, const std::string& name, TableState& state, const Columns& shown, int index,
              TableEvents& events)
{
    const auto& model = state.model;
    const auto& row = model.rows[static_cast<std::size_t>(index)];
    const IdGuard id{index};
    ImGui::TableNextRow();
    ImGuiContext& g = *ImGui::GetCurrentContext();
    ImGuiLastItemData whole;
    std::vector<bool> seen(model.columns.size(), false);
    for (const auto c : shown) {
        ImGui::TableNextColumn();
        if (c == shown.front()) {
            const float left = ImGui::GetCursorPosX();
            if (ImGui::Selectable("###row", row.key == state.chosen_key,
                                  ImGuiSelectableFlags_SpanAllColumns |
                                      ImGuiSelectableFlags_AllowItemOverlap)) {
                state.chosen_key = row.key;
                events.chosen = row.key;
            }
            ui.registry->note(fmt::format("{}.row.{}", name, row.key), WidgetKind::item, name + ".rows");
            whole = g.LastItemData;
            ImGui::SameLine();
            ImGui::SetCursorPosX(left);
        }
        seen[c] = show_cell(ui, model.columns[c], row.cells[c]);
    }
    g.LastItemData = whole;
    explain_last(ui, unseen_of(model, row, seen));
}

/// When the keyboard comes to a table that the page shows in part, the page moves so that all of it can be
/// reached.
void follow_keyboard(const Ui& ui, const std::string& name, TableState& state, const ImRect& whole)
{
    const ImGuiContext& g = *ImGui::GetCurrentContext();
    const auto* note = ui.registry->find(g.NavId);
    if (note == nullptr || !note->name.starts_with(name + ".") || state.followed == g.NavId) return;
    state.followed = g.NavId;
    ImGui::ScrollToBringRectIntoView(ImGui::GetCurrentWindow(), whole);
}

} // namespace

TableEvents show_table(const Ui& ui, std::string_view name, TableState& state, float height, Actions& actions)
{
    TableEvents events;
    const auto& model = state.model;
    const std::string base{name};
    const float head = ImGui::GetCursorPosY();
    const ImVec2 corner = ImGui::GetCursorScreenPos();
    follow_keyboard(ui, base, state,
                    {corner, {corner.x + ImGui::GetContentRegionAvail().x, corner.y + ui.px(height)}});
    show_tools(ui, base, state, actions);
    const float left = height - (ImGui::GetCursorPosY() - head) / ui.scale;
    const auto flags = ImGuiTableFlags_RowBg | ImGuiTableFlags_PadOuterX | ImGuiTableFlags_ScrollY |
                       ImGuiTableFlags_ScrollX | ImGuiTableFlags_BordersInnerH |
                       ImGuiTableFlags_NoBordersInBody | ImGuiTableFlags_Resizable |
                       ImGuiTableFlags_NoSavedSettings;
    const auto shown = columns_with_room(model, room(ui));
    const auto stretches = [&](std::size_t column) { return model.columns[column].stretch; };
    float wanted = 0.0F;
    for (const auto column : shown) wanted += model.columns[column].width + 16.0F;
    const bool tight = wanted > room(ui);
    // The room that is left goes to the columns of words, but no farther than the eye follows a row.
    // Without a column of words the last one takes it.
    const bool last_stretches = std::none_of(shown.begin(), shown.end(), stretches);
    float widest = wanted;
    for (const auto column : shown)
        if (stretches(column) || (last_stretches && column == shown.back()))
            widest += 2.0F * model.columns[column].width;
    const TableGuard table{fmt::format("{}.{}", base, shown.size()).c_str(),
                           static_cast<int>(shown.size()),
                           tight ? flags : flags & ~ImGuiTableFlags_ScrollX,
                           {widest < room(ui) ? ui.px(widest) : 0.0F, ui.px(std::max(left, 90.0F))}};
    if (!table) return events;
    ImGui::TableSetupScrollFreeze(1, 1);
    for (const auto index : shown) {
        const auto& column = model.columns[index];
        const bool stretch = !tight && (column.stretch || (last_stretches && index == shown.back()));
        ImGui::TableSetupColumn(column.title.c_str(),
                                stretch ? ImGuiTableColumnFlags_WidthStretch
                                        : ImGuiTableColumnFlags_WidthFixed,
                                stretch ? column.width : ui.px(column.width));
    }
    show_head(ui, base, state, shown);
    ImGuiListClipper clipper;
    clipper.Begin(static_cast<int>(state.order.size()));
    while (clipper.Step())
        for (int i = clipper.DisplayStart; i < clipper.DisplayEnd; ++i) {
            const int index = state.order[static_cast<std::size_t>(i)];
            if (index < static_cast<int>(model.rows.size())) show_row(ui, base, state, shown, index, events);
        }
    clipper.End();
    return events;
}

} // namespace harpkeep::dashboard
