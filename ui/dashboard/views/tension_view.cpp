// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

StringPlace top_of(const TensionModel& model)
{
    return model.rows.empty() ? StringPlace{} : model.rows.back().place;
}

PlotModel along_harp(const TensionModel& model, const Settings& settings)
{
    PlotModel plot;
    plot.x.kind = AxisKind::places;
    double x = 0.0;
    for (const auto& row : model.rows) {
        if (row.place.letter == Letter::C || row.place.letter == Letter::F)
            plot.x.places.emplace_back(x, place_name(row.place, settings.names, top_of(model)));
        x += 1.0;
    }
    plot.x.low = -0.7;
    plot.x.high = x - 0.3;
    return plot;
}

void show_trial(const Ui& ui, const TensionModel& model, const TensionState& state, Actions& actions)
{
    const Card card{ui, "tension.trial"};
    subheading(ui, text::try_gauge);
    const auto row = std::find_if(model.rows.begin(), model.rows.end(), [&](const TensionRow& r) {
        return harp_name(r.place) == state.rows.chosen_key;
    });
    if (row == model.rows.end()) {
        paragraph(ui, text::choose_a_string, Tint::quiet_ink);
        return;
    }
    const bool trying = model.trial && model.trial->place == row->place;
    double gauge = trying ? model.trial->gauge_mm : row->gauge_mm;
    ImGui::SameLine();
    words(ui, name_of(ui, row->place, top_of(model)));
    flow(ui, fmt::format("{}  \u2212  00000.00  +   ", text::gauge_label));
    if (number_field(ui, "tension.gauge", text::gauge_label, gauge, 0.02, 0.3, 4.0, 2, text::gauge_why))
        actions.push_back(TryGauge{row->place, gauge});
    if (!trying) return;
    paragraph(ui, fmt::format(text::trial_format, model.trial->gauge_mm, model.trial->tension_n,
                              signed_figure(model.trial->tension_change_n, 0), model.trial->feel_ratio));
    paragraph(ui, model.trial->advice, Tint::watch);
}

void show_plan(const Ui& ui, const TensionModel& model, TensionState& state, Actions& actions)
{
    std::vector<StringPlace> places = model.places;
    if (state.planned_for != state.rows.chosen_key) {
        state.planned_for = state.rows.chosen_key;
        for (std::size_t i = 0; i < places.size(); ++i)
            if (harp_name(places[i]) == state.rows.chosen_key)
                state.plan.place = static_cast<int>(places.size() - 1 - i);
    }
    const Card card{ui, "tension.plan_card"};
    subheading(ui, text::plan_title);
    show_plan_form(ui, "tension.plan", places, state.plan, actions);
}

} // namespace

TableModel tension_table(const TensionModel& model, const Settings& settings)
{
    TableModel table;
    constexpr std::array<float, 7> widths{66.0F, 66.0F, 84.0F, 82.0F, 84.0F, 88.0F, 92.0F};
    constexpr std::array<int, 7> leaves{0, 4, 7, 5, 0, 6, 0};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back(
            {text::tension_columns[c], text::tension_columns_why[c], widths[c], c == 1, c > 1, leaves[c]});
    for (auto row = model.rows.rbegin(); row != model.rows.rend(); ++row)
        table.rows.push_back(
            {harp_name(row->place),
             {{place_name(row->place, settings.names, top_of(model)), row->place.diatonic_index(),
               row->state},
              {row->material, {}},
              {fmt::format("{:.0f}", row->length_mm), row->length_mm},
              {fmt::format("{:.2f}", row->gauge_mm), row->gauge_mm},
              {fmt::format("{:.0f} ± {:.0f}", row->tension_n.value, row->tension_n.uncertainty),
               row->tension_n.value},
              {fmt::format("{:.0f}", row->stress_mpa), row->stress_mpa},
              {percent_text(row->of_breaking), row->of_breaking}}});
    return table;
}

PlotModel tension_plot(const TensionModel& model, const Settings& settings)
{
    PlotModel plot = along_harp(model, settings);
    plot.title = text::tension_plot;
    plot.y.title = text::axis_tension;
    plot.y.low = 0.0;
    PlotSeries series{{}, SeriesLook::columns, Tint::string_plain, false, {}};
    double x = 0.0;
    for (const auto& row : model.rows) {
        series.points.push_back(
            {x, row.tension_n.value, 0.0, row.state,
             fmt::format("{}: {:.0f} ± {:.0f} N", place_name(row.place, settings.names, top_of(model)),
                         row.tension_n.value, row.tension_n.uncertainty),
             string_tint(row.place.letter, settings.dark_f)});
        x += 1.0;
    }
    plot.series.push_back(std::move(series));
    return plot;
}

PlotModel breaking_plot(const TensionModel& model, const Settings& settings)
{
    PlotModel plot = along_harp(model, settings);
    plot.title = text::breaking_plot;
    plot.y.title = text::axis_breaking;
    plot.y.low = 0.0;
    plot.y.high = 100.0;
    for (const auto& row : model.rows) plot.y.high = std::max(*plot.y.high, 100.0 * row.of_breaking);
    PlotSeries series{{}, SeriesLook::marks, Tint::ink, false, {}};
    double x = 0.0;
    for (const auto& row : model.rows) {
        series.points.push_back(
            {x, 100.0 * row.of_breaking, 0.0, row.state,
             place_name(row.place, settings.names, top_of(model)) + ": " + percent_text(row.of_breaking)});
        x += 1.0;
    }
    plot.series.push_back(std::move(series));
    return plot;
}

void prepare(const TensionModel& model, const Settings& settings, TensionState& state)
{
    state.rows.show(tension_table(model, settings));
    state.pull = tension_plot(model, settings);
    state.breaking = breaking_plot(model, settings);
}

Actions draw(const Ui& ui, const TensionModel& model, TensionState& state)
{
    Actions actions;
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const float whole = room(ui);
    const bool two_columns = whole >= 1150.0F;
    const float side = std::clamp(0.5F * whole, 480.0F, 760.0F);
    {
        const Column left{ui, "tension.left", two_columns ? whole - side - 12.0F : 0.0F, two_columns};
        const Card card{ui, "tension.plots"};
        {
            const FontGuard font{ui.fonts.heading};
            paragraph(ui, fmt::format(text::total_pull_format, model.total_n.value / 1000.0,
                                      model.total_n.uncertainty / 1000.0));
        }
        const float tall = std::max(0.5F * (height - 150.0F), 230.0F);
        show_plot(ui, "tension.pull", state.pull, card.inner_width(), tall, actions);
        show_plot(ui, "tension.breaking", state.breaking, card.inner_width(), tall, actions);
        paragraph(ui, model.rests_on, Tint::quiet_ink);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "tension.right", 0.0F, two_columns};
    const float head = ImGui::GetCursorPosY();
    show_trial(ui, model, state, actions);
    show_plan(ui, model, state, actions);
    paragraph(ui, text::tension_caution, Tint::quiet_ink);
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    show_table(ui, "tension.rows", state.rows, std::max((two_columns ? height : 420.0F) - used, 260.0F),
               actions);
    return actions;
}

} // namespace harpkeep::dashboard
