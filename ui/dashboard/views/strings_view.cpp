// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/care_views.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

constexpr std::array<int, 4> horizon_days{28, 90, 182, 365};

StringPlace top_of(const StringsModel& model)
{
    return model.rows.empty() ? StringPlace{} : model.rows.back().place;
}

const StringRow* chosen_row(const StringsModel& model, const StringsState& state)
{
    const auto found = std::find_if(model.rows.begin(), model.rows.end(), [&](const StringRow& row) {
        return harp_name(row.place) == state.rows.chosen_key;
    });
    return found == model.rows.end() ? nullptr : &*found;
}

void show_chosen(const Ui& ui, const StringsModel& model, StringsState& state, Actions& actions)
{
    const auto* row = chosen_row(model, state);
    if (row == nullptr) {
        ImGui::AlignTextToFramePadding();
        words(ui, text::choose_a_string, Tint::quiet_ink);
        return;
    }
    const std::string name = name_of(ui, row->place, top_of(model));
    subheading(ui, row->material.empty()
                       ? name
                       : fmt::format(text::chosen_string_format, name, row->material, row->gauge_mm));
    const bool unknown = row->material.empty();
    flow(ui, text::put_on);
    if (button(ui, "strings.put_on", text::put_on, text::put_on_why,
               row->broken ? Weight::chief : Weight::plain)) {
        const auto make = unknown ? make_choice(state.make) : std::nullopt;
        state.make_trouble = unknown && !make ? text::make_wrong : "";
        if (!unknown || make) actions.push_back(PutStringOn{row->place, make});
    }
    flow(ui, text::broke);
    {
        const DisabledGuard disabled{row->broken || !row->put_on};
        if (button(ui, "strings.broke", text::broke, text::broke_why))
            actions.push_back(StringBroke{row->place});
    }
    if (!unknown) return;
    paragraph(ui, text::which_string, Tint::quiet_ink);
    show_make_fields(ui, "strings.make", state.make);
    if (!state.make_trouble.empty()) paragraph(ui, state.make_trouble, Tint::out);
}

void show_on_harp(const Ui& ui, const StringsModel& model, StringsState& state, float height,
                  Actions& actions)
{
    int chosen = 0;
    for (int i = 0; i < 4; ++i)
        if (horizon_days[static_cast<std::size_t>(i)] == model.horizon_days) chosen = i;
    const float head = ImGui::GetCursorPosY();
    ImGui::AlignTextToFramePadding();
    words(ui, text::horizon);
    ImGui::SameLine();
    const std::vector<std::string> labels{text::horizons.begin(), text::horizons.end()};
    const int wish = choice(ui, "strings.horizon", labels, chosen, text::horizon_why);
    if (wish != chosen) actions.push_back(ChooseHorizon{horizon_days[static_cast<std::size_t>(wish)]});
    for (const auto& advice : model.advice) show_advice(ui, advice);
    const float plot = height > 620.0F ? std::clamp(0.32F * height, 190.0F, 320.0F) : 0.0F;
    if (plot > 0.0F) show_plot(ui, "strings.risk", state.risk, room(ui), plot, actions);
    show_chosen(ui, model, state, actions);
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    show_table(ui, "strings.rows", state.rows, std::max(height - used, 240.0F), actions);
}

void show_lives(const Ui& ui, const StringsModel& model, StringsState& state, float height, Actions& actions)
{
    if (model.curves.empty() || state.lives.size() != model.curves.size()) return;
    const float head = ImGui::GetCursorPosY();
    std::vector<std::string> labels;
    for (const auto& curve : model.curves) labels.push_back(curve.group);
    state.curve = std::clamp(state.curve, 0, static_cast<int>(labels.size()) - 1);
    state.curve = choice(ui, "strings.curve", labels, state.curve);
    const auto& curve = model.curves[static_cast<std::size_t>(state.curve)];
    paragraph(ui, fmt::format(text::life_rests_format, curve.summary, curve.breaks, curve.strings));
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    show_plot(ui, "strings.life", state.lives[static_cast<std::size_t>(state.curve)], room(ui),
              std::max(height - used - 8.0F, 280.0F), actions);
}

void show_stock(const Ui& ui, const StringsModel& model, StringsState& state, float height, Actions& actions)
{
    const float head = ImGui::GetCursorPosY();
    subheading(ui, fmt::format(text::order_total_format, model.order_total));
    flow(ui, text::add_one);
    {
        const DisabledGuard disabled{state.stock.chosen_key.empty()};
        if (button(ui, "strings.add_one", text::add_one, text::add_one_why))
            actions.push_back(AddToStock{state.stock.chosen_key, 1});
    }
    paragraph(ui, fmt::format(text::stock_why_format, chance_text(model.miss_chance)), Tint::quiet_ink);
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    show_table(ui, "strings.stock", state.stock, std::max(height - used, 240.0F), actions);
}

} // namespace

TableModel strings_table(const StringsModel& model, const Settings& settings)
{
    TableModel table;
    constexpr std::array<float, 8> widths{62.0F, 66.0F, 82.0F, 88.0F, 76.0F, 150.0F, 58.0F, 84.0F};
    constexpr std::array<int, 8> leaves{0, 4, 7, 6, 3, 0, 5, 8};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back({text::string_columns[c], text::string_columns_why[c], widths[c], c == 7,
                                 c == 2 || c == 6, leaves[c]});
    for (auto row = model.rows.rbegin(); row != model.rows.rend(); ++row) {
        const std::string day = !row->put_on ? ""
                                : row->put_on_about
                                    ? fmt::format(text::put_on_about_format, day_text(*row->put_on))
                                    : day_text(*row->put_on);
        const std::string risk =
            !row->risk ? ""
                       : fmt::format(text::risk_range_format, chance_text(*row->risk),
                                     std::lround(100.0 * row->risk_low), std::lround(100.0 * row->risk_high));
        table.rows.push_back(
            {harp_name(row->place),
             {{place_name(row->place, settings.names, top_of(model)), row->place.diatonic_index(),
               row->state},
              {row->broken ? std::string{text::no_string} : row->material,
               {},
               {},
               row->broken ? Tint::out : Tint::ink},
              {row->gauge_mm > 0.0 ? fmt::format("{:.2f}", row->gauge_mm) : "",
               row->gauge_mm > 0.0 ? std::optional{row->gauge_mm} : std::nullopt},
              {day,
               row->put_on ? std::optional<double>{row->put_on->time_since_epoch().count()} : std::nullopt},
              {row->put_on ? age_text(row->age_days) : "",
               row->put_on ? std::optional{row->age_days} : std::nullopt},
              {risk, row->risk},
              {fmt::format("{}", row->in_stock), row->in_stock},
              {row->note, {}}}});
    }
    return table;
}

TableModel stock_table(const StringsModel& model)
{
    TableModel table;
    constexpr std::array<float, 6> widths{220.0F, 84.0F, 84.0F, 84.0F, 90.0F, 100.0F};
    constexpr std::array<int, 6> leaves{0, 4, 3, 0, 6, 5};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back(
            {text::stock_columns[c], text::stock_columns_why[c], widths[c], c == 0, c > 0, leaves[c]});
    for (const auto& row : model.stock)
        table.rows.push_back({row.what,
                              {{row.what, {}, row.to_order > 0 ? State::watch : State::fine},
                               {fmt::format("{}", row.in_stock), row.in_stock},
                               {fmt::format("{}", row.wanted), row.wanted},
                               {row.to_order > 0 ? fmt::format("{}", row.to_order) : "", row.to_order},
                               {row.unit_cost, {}},
                               {row.cost, {}}}});
    return table;
}

PlotModel risk_plot(const StringsModel& model, const Settings& settings)
{
    PlotModel plot;
    plot.title = text::risk_plot;
    plot.x.kind = AxisKind::places;
    plot.y.title = text::axis_risk;
    plot.y.low = 0.0;
    PlotSeries series{{}, SeriesLook::columns, Tint::string_plain, false, {}};
    double x = 0.0;
    for (const auto& row : model.rows) {
        const std::string name = place_name(row.place, settings.names, top_of(model));
        if (row.place.letter == Letter::C || row.place.letter == Letter::F)
            plot.x.places.emplace_back(x, name);
        if (row.risk)
            series.points.push_back({x, 100.0 * *row.risk, 0.0, row.state,
                                     name + ": " + chance_text(*row.risk),
                                     string_tint(row.place.letter, settings.dark_f)});
        x += 1.0;
    }
    plot.x.low = -0.7;
    plot.x.high = x - 0.3;
    plot.series.push_back(std::move(series));
    return plot;
}

PlotModel life_plot(const LifeCurve& curve)
{
    PlotModel plot;
    plot.title = curve.group;
    plot.x.title = text::axis_years;
    plot.y.title = text::axis_surviving;
    plot.y.low = 0.0;
    plot.y.high = 1.0;
    plot.x.low = 0.0;
    PlotBand band{{}, Tint::wood, 40, {}};
    PlotSeries fitted{text::life_fitted, SeriesLook::line, Tint::wood, true, {}};
    for (const auto& p : curve.fitted) {
        band.points.push_back({p.years, p.low, p.high});
        fitted.points.push_back({.x = p.years, .y = p.surviving});
    }
    PlotSeries counted{text::life_counted, SeriesLook::steps, Tint::ink, false, {}};
    for (const auto& p : curve.counted) counted.points.push_back({.x = p.years, .y = p.surviving});
    plot.bands.push_back(std::move(band));
    plot.series = {std::move(fitted), std::move(counted)};
    return plot;
}

void prepare(const StringsModel& model, const Settings& settings, StringsState& state)
{
    state.rows.show(strings_table(model, settings));
    state.stock.show(stock_table(model));
    state.risk = risk_plot(model, settings);
    state.lives.clear();
    for (const auto& curve : model.curves) state.lives.push_back(life_plot(curve));
}

Actions draw(const Ui& ui, const StringsModel& model, StringsState& state)
{
    Actions actions;
    const std::vector<std::string> tabs{text::tab_on_harp, text::tab_lives, text::tab_stock};
    state.tab = choice(ui, "strings.tab", tabs, state.tab, text::strings_tab_why);
    flow(ui, text::sheet_buttons[4]);
    sheet_button(ui, "strings.sheet", {.kind = ui::ReportKind::strings}, actions);
    const float height = ImGui::GetContentRegionAvail().y / ui.scale - 34.0F;
    if (state.tab == 0)
        show_on_harp(ui, model, state, height, actions);
    else if (state.tab == 1)
        show_lives(ui, model, state, height, actions);
    else
        show_stock(ui, model, state, height, actions);
    paragraph(ui, text::wire_caution, Tint::quiet_ink);
    return actions;
}

} // namespace harpkeep::dashboard
