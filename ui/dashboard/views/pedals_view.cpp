// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/pedal_board.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

void show_setting(const Ui& ui, const PedalsModel& model, Actions& actions)
{
    const Card card{ui, "pedals.setting_card"};
    {
        const FontGuard font{ui.fonts.heading};
        words(ui, model.sounds, Tint::wood);
    }
    if (model.kind == HarpKind::lever) {
        paragraph(ui, text::lever_no_pedals, Tint::quiet_ink);
        return;
    }
    const auto wish = edit_pedals(ui, "pedals.board", model.setting, card.inner_width(), 200.0F);
    if (!(wish == model.setting)) actions.push_back(ChoosePedals{wish});
    paragraph(ui, fmt::format(text::worst_now_format, model.worst_before_cents, model.worst_after_cents));
    paragraph(ui, model.summary, Tint::quiet_ink);
}

void show_ready(const Ui& ui, const PedalsModel& model, Actions& actions)
{
    const Card card{ui, "pedals.ready"};
    subheading(ui, text::ready_settings);
    explain_last(ui, text::ready_settings_why);
    for (std::size_t i = 0; i < model.ready.size(); ++i) {
        const auto& ready = model.ready[i];
        show_mark(ui, ready.state);
        ImGui::SameLine();
        if (small_button(ui, fmt::format("pedals.ready.{}", i), ready.key, text::ready_settings_why))
            actions.push_back(ChoosePedals{ready.setting});
        ImGui::SameLine();
        words(ui, fmt::format(text::cents_format, fmt::format("{:.1f}", ready.worst_cents)), Tint::quiet_ink);
    }
}

void show_pairs(const Ui& ui, const PedalsModel& model)
{
    if (model.pairs.empty()) return;
    const Card card{ui, "pedals.pairs"};
    subheading(ui, text::enharmonic);
    explain_last(ui, text::enharmonic_why);
    for (const auto& pair : model.pairs)
        paragraph(ui, fmt::format(text::pair_format, pair.first, pair.second, figure_text(pair.apart_cents),
                                  pair.beats_hz));
}

/// Nothing where nothing was measured.
TableCell figure_cell(const TuneAroundRow& row, double cents)
{
    if (row.state == State::not_measured) return {};
    return {signed_figure(cents), cents};
}

} // namespace

TableModel around_table(const PedalsModel& model, const Settings& settings)
{
    TableModel table;
    constexpr std::array<float, 5> widths{72.0F, 80.0F, 90.0F, 140.0F, 90.0F};
    constexpr std::array<int, 5> leaves{0, 2, 3, 0, 4};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back(
            {text::around_columns[c], text::around_columns_why[c], widths[c], c == 1, c > 1, leaves[c]});
    const StringPlace top = model.rows.empty() ? StringPlace{} : model.rows.back().place;
    for (auto row = model.rows.rbegin(); row != model.rows.rend(); ++row)
        table.rows.push_back(
            {harp_name(row->place),
             {{place_name(row->place, settings.names, top), row->place.diatonic_index(), row->state},
              {std::string(1, letter_name(row->place.letter)) + position_sign(row->position), {}},
              figure_cell(*row, row->before_cents),
              figure_cell(*row, row->offset_cents),
              figure_cell(*row, row->after_cents)}});
    return table;
}

void prepare(const PedalsModel& model, const Settings& settings, PedalsState& state)
{
    state.rows.show(around_table(model, settings));
}

Actions draw(const Ui& ui, const PedalsModel& model, PedalsState& state)
{
    Actions actions;
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const float whole = room(ui);
    const bool two_columns = whole >= 860.0F;
    {
        const Column left{ui, "pedals.left", two_columns ? 0.5F * whole - 6.0F : 0.0F, two_columns};
        show_setting(ui, model, actions);
        show_ready(ui, model, actions);
        show_pairs(ui, model);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "pedals.right", 0.0F, two_columns};
    subheading(ui, text::tune_list);
    flow(ui, text::to_tuning);
    if (button(ui, "pedals.to_tuning", text::to_tuning, text::to_tuning_why, Weight::chief))
        actions.push_back(GoTo{Page::tuning});
    flow(ui, text::sheet_buttons[5]);
    sheet_button(ui, "pedals.sheet", {.kind = ui::ReportKind::tuning, .pedals = model.setting}, actions);
    show_table(ui, "pedals.rows", state.rows, std::max((two_columns ? height : 460.0F) - 44.0F, 300.0F),
               actions);
    return actions;
}

} // namespace harpkeep::dashboard
