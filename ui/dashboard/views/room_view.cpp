// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

std::optional<double> number_of(const std::optional<Day>& day)
{
    if (!day) return std::nullopt;
    return static_cast<double>(day->time_since_epoch().count());
}

std::string where(const RoomRow& row)
{
    return row.loan.empty() ? row.room : fmt::format(text::with_format, row.loan);
}

const RoomRow* chosen_row(const RoomModel& model, const RoomState& state)
{
    const auto found = std::find_if(model.rows.begin(), model.rows.end(),
                                    [&](const RoomRow& row) { return row.key == state.rows.chosen_key; });
    return found == model.rows.end() ? nullptr : &*found;
}

/// What can be done with the harp whose row was pressed.
void show_chosen(const Ui& ui, const RoomModel& model, RoomState& state, Actions& actions)
{
    const auto* row = chosen_row(model, state);
    if (row == nullptr) {
        paragraph(ui, text::choose_harp_in_room, Tint::quiet_ink);
        return;
    }
    const Card card{ui, "room.chosen"};
    subheading(ui, fmt::format(text::room_chosen_format, row->name, where(*row)));
    if (button(ui, "room.open", text::open_harp, text::open_harp_why)) {
        actions.push_back(ChooseHarp{row->key});
        actions.push_back(GoTo{Page::today});
    }
    show_loans(ui, *row, model.today, state.loan, actions);
}

} // namespace

TableModel room_table(const RoomModel& model)
{
    TableModel table;
    constexpr std::array<float, 8> widths{104.0F, 200.0F, 120.0F, 176.0F, 86.0F, 54.0F, 88.0F, 72.0F};
    constexpr std::array<int, 8> leaves{0, 4, 0, 3, 5, 6, 7, 8};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back({text::room_columns[c], text::room_columns_why[c], widths[c],
                                 c == 1 || c == 3, c == 4 || c == 5, leaves[c]});
    for (const auto& row : model.rows) {
        const std::string state = row.state == State::out
                                      ? fmt::format(text::steps_out_short_format, row.steps_out)
                                      : std::string{state_word(row.state)};
        const std::string due =
            row.due_on ? fmt::format(text::due_on_format, day_text(*row.due_on), row.due) : row.due;
        const bool late = row.due_on && *row.due_on < model.today;
        table.rows.push_back(
            {row.key,
             {{row.name, {}},
              {where(row), {}},
              {state, 100.0 * badness(row.state) + row.steps_out, row.state},
              {due, number_of(row.due_on), {}, late ? Tint::out : Tint::ink},
              {row.cost_text, row.cost_year},
              {row.strings_at_risk > 0 ? fmt::format("{}", row.strings_at_risk) : "", row.strings_at_risk},
              {row.checked_on ? day_text(*row.checked_on) : "", number_of(row.checked_on)},
              {row.kind, {}}}});
    }
    return table;
}

void prepare(const RoomModel& model, const Settings&, RoomState& state)
{
    if (state.rows.sort_column < 0) { // the worst first, until another order is chosen
        state.rows.sort_column = 2;
        state.rows.descending = true;
    }
    state.rows.show(room_table(model));
    const auto count = [&](State wanted) {
        return std::count_if(model.rows.begin(), model.rows.end(),
                             [&](const RoomRow& row) { return row.state == wanted; });
    };
    state.counts =
        fmt::format(text::room_counts_format, model.rows.size(), count(State::out), count(State::unsure),
                    count(State::watch), count(State::fine), count(State::not_measured));
}

Actions draw(const Ui& ui, const RoomModel& model, RoomState& state)
{
    Actions actions;
    const float top = ImGui::GetCursorPosY();
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    paragraph(ui, state.counts);
    paragraph(ui, fmt::format(text::room_cost_format, model.cost_total), Tint::quiet_ink);
    if (button(ui, "room.new_harp", text::new_harp, text::new_harp_why)) actions.push_back(ShowFirstStart{});
    flow(ui, text::sheet_buttons[3]);
    sheet_button(ui, "room.sheet", {.kind = ui::ReportKind::room}, actions);
    show_chosen(ui, model, state, actions);
    const float used = (ImGui::GetCursorPosY() - top) / ui.scale;
    show_table(ui, "room.rows", state.rows, std::max(height - used, 260.0F), actions);
    return actions;
}

} // namespace harpkeep::dashboard
