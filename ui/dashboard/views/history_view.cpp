// SPDX-License-Identifier: MIT
#include "ui/dashboard/views/history_view.hpp"

#include "ui/dashboard/figures.hpp"
#include "ui/dashboard/guards.hpp"
#include "ui/dashboard/text.hpp"
#include "ui/dashboard/views/shared.hpp"
#include "ui/dashboard/widgets/controls.hpp"
#include "ui/dashboard/widgets/picture_view.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

double axis_day(Day day)
{
    return static_cast<double>(day.time_since_epoch().count());
}

State state_of_point(const HistoryPoint& point, const HistoryModel& model)
{
    if (!point.trusted) return State::unsure;
    const double value = point.error_cents.value;
    if (value > model.high_cents || value < model.low_cents) return State::out;
    if (value > 0.5 * model.high_cents || value < 0.5 * model.low_cents) return State::watch;
    return State::fine;
}

std::vector<PlotPoint> line_of(const std::vector<ForecastPoint>& points)
{
    std::vector<PlotPoint> out;
    for (const auto& p : points) out.push_back({.x = axis_day(p.day), .y = p.expected_cents});
    return out;
}

void show_choice(const Ui& ui, const HistoryModel& model, Actions& actions)
{
    HistoryChoice wish = model.choice;
    if (model.kind != HarpKind::lever) {
        const std::vector<std::string> scopes{text::one_string, text::one_pedal};
        wish.whole_pedal =
            choice(ui, "history.scope", scopes, wish.whole_pedal ? 1 : 0, text::history_of_why) == 1;
        flow(ui, "0000000000"); // as wide as the list
    }
    if (wish.whole_pedal) {
        std::vector<std::string> letters;
        int chosen = 0;
        for (int i = 0; i < 7; ++i) {
            letters.emplace_back(1, letter_name(pedal_order[static_cast<std::size_t>(i)]));
            if (pedal_order[static_cast<std::size_t>(i)] == wish.place.letter) chosen = i;
        }
        wish.place.letter =
            pedal_order[static_cast<std::size_t>(drop_list(ui, "history.pedal", letters, chosen, 80.0F))];
    } else if (!model.places.empty()) {
        std::vector<std::string> names;
        int chosen = 0;
        for (std::size_t i = 0; i < model.places.size(); ++i) {
            // Highest first, as harpists count.
            const auto place = model.places[model.places.size() - 1 - i];
            names.push_back(name_of(ui, place, model.places.back()));
            if (place == wish.place) chosen = static_cast<int>(i);
        }
        const int now = drop_list(ui, "history.place", names, chosen, 100.0F, text::history_of_why);
        wish.place = model.places[model.places.size() - 1 - static_cast<std::size_t>(now)];
    }
    if (model.kind == HarpKind::pedal) {
        flow(ui, std::string{text::step_flat_natural} + text::step_natural_sharp);
        const std::vector<std::string> steps{text::step_flat_natural, text::step_natural_sharp};
        wish.step =
            choice(ui, "history.step", steps, wish.step == Step::lower ? 0 : 1, text::history_of_why) == 0
                ? Step::lower
                : Step::upper;
    }
    if (!(wish == model.choice)) actions.push_back(ChooseHistory{wish});
    flow(ui, text::sheet_buttons[2]);
    sheet_button(ui, "history.sheet", {.kind = ui::ReportKind::history}, actions);
}

void show_compare(const Ui& ui, const HistoryModel& model, HistoryState& state, float height,
                  Actions& actions)
{
    const Card card{ui, "history.compare"};
    const float head = ImGui::GetCursorPosY();
    subheading(ui, text::check_against_check);
    std::vector<std::string> names;
    for (const auto& check : model.checks) names.push_back(day_text(check.day));
    const float field = std::clamp(0.3F * card.inner_width(), 110.0F, 150.0F);
    ImGui::AlignTextToFramePadding();
    words(ui, text::earlier_check);
    ImGui::SameLine();
    const int before = drop_list(ui, "history.before", names, model.before, field, text::compare_why);
    flow(ui, "Later  2026-11-22    ");
    ImGui::AlignTextToFramePadding();
    words(ui, text::later_check);
    ImGui::SameLine();
    const int after = drop_list(ui, "history.after", names, model.after, field, text::compare_why);
    if (before != model.before || after != model.after) actions.push_back(CompareChecks{before, after});
    if (model.before >= 0 && model.after >= 0) {
        flow(ui, text::sheet_buttons[1]);
        sheet_button(ui, "history.compare_sheet",
                     {.kind = ui::ReportKind::visit,
                      .check_before = model.checks[static_cast<std::size_t>(model.before)].key,
                      .check_after = model.checks[static_cast<std::size_t>(model.after)].key},
                     actions);
    }
    paragraph(ui, model.changes_text);
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    const auto events =
        show_table(ui, "history.changes", state.changes, std::max(height - used - 28.0F, 260.0F), actions);
    if (!events.chosen) return;
    for (const auto& change : model.changes)
        if (harp_name(change.place) + std::string{step_name(change.step)} == *events.chosen)
            actions.push_back(ChooseHistory{{false, change.place, change.step}});
}

} // namespace

PlotModel history_plot(const HistoryModel& model, const Settings& settings)
{
    PlotModel plot;
    const StringPlace top = model.places.empty() ? model.choice.place : model.places.back();
    const std::string step = step_text(model.kind, model.choice.step);
    plot.title = model.choice.whole_pedal
                     ? fmt::format(text::pedal_title_format, letter_name(model.choice.place.letter), step)
                     : fmt::format(text::history_title_format,
                                   place_name(model.choice.place, settings.names, top), step);
    plot.x.kind = AxisKind::date;
    plot.y.title = text::axis_error_cents;
    plot.bands.push_back(
        {{},
         Tint::band,
         255,
         {{-1e6, model.low_cents, model.high_cents}, {1e6, model.low_cents, model.high_cents}}});
    if (!model.forecast.empty()) {
        PlotBand band{text::series_forecast, Tint::wood, 45, {}};
        for (const auto& p : model.forecast)
            band.points.push_back({axis_day(p.day), p.low_cents, p.high_cents});
        plot.bands.push_back(std::move(band));
    }
    for (const auto& event : model.events) {
        const bool visit = event.kind == HistoryEventKind::visit;
        plot.events.push_back({axis_day(event.day), visit ? text::event_visit : text::event_string,
                               day_text(event.day) + ": " + event.text, !visit});
    }
    plot.series.push_back(
        {text::series_expected, SeriesLook::line, Tint::string_plain, false, line_of(model.fitted)});
    if (!model.forecast.empty())
        plot.series.push_back(
            {text::series_forecast, SeriesLook::line, Tint::wood, true, line_of(model.forecast)});
    PlotSeries checks{text::series_checks, SeriesLook::marks, Tint::ink, false, {}};
    for (const auto& point : model.points)
        checks.points.push_back(
            {axis_day(point.day), point.error_cents.value, 2.0 * point.error_cents.uncertainty,
             state_of_point(point, model),
             fmt::format(text::point_note_format, day_text(point.day), figure_text(point.error_cents),
                         point.trusted ? "" : text::point_doubtful)});
    plot.series.push_back(std::move(checks));
    return plot;
}

TableModel changes_table(const HistoryModel& model, const Settings& settings)
{
    TableModel table;
    constexpr std::array<float, 6> widths{52.0F, 126.0F, 60.0F, 60.0F, 84.0F, 124.0F};
    constexpr std::array<int, 6> leaves{0, 0, 4, 3, 0, 5};
    for (std::size_t c = 0; c < widths.size(); ++c)
        table.columns.push_back({text::change_columns[c], text::change_columns_why[c], widths[c], c == 5,
                                 c >= 2 && c <= 4, leaves[c]});
    const StringPlace top = model.places.empty() ? StringPlace{} : model.places.back();
    for (const auto& change : model.changes) {
        const char* verdict = !change.beyond_uncertainty ? text::change_same
                              : change.better            ? text::change_better
                                                         : text::change_worse;
        const State mark = !change.beyond_uncertainty ? State::unsure
                           : change.better            ? State::fine
                                                      : State::out;
        table.rows.push_back({harp_name(change.place) + std::string{step_name(change.step)},
                              {{place_name(change.place, settings.names, top), change.place.diatonic_index()},
                               {step_text(model.kind, change.step), {}},
                               {signed_figure(change.before_cents.value), change.before_cents.value},
                               {signed_figure(change.after_cents.value), change.after_cents.value},
                               {figure_text(change.change_cents), change.change_cents.value},
                               {verdict, {}, mark}}});
    }
    return table;
}

void prepare(const HistoryModel& model, const Settings& settings, HistoryState& state)
{
    state.changes.show(changes_table(model, settings));
    state.plot = history_plot(model, settings);
}

Actions draw(const Ui& ui, const HistoryModel& model, HistoryState& state)
{
    Actions actions;
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const float whole = room(ui);
    const bool two_columns = whole >= 1250.0F;
    const float side = std::clamp(0.48F * whole, 640.0F, 760.0F);
    {
        const Column left{ui, "history.left", two_columns ? whole - side - 12.0F : 0.0F, two_columns};
        const Card card{ui, "history.plot_card"};
        const float head = ImGui::GetCursorPosY();
        show_choice(ui, model, actions);
        paragraph(ui, model.drift_text);
        paragraph(ui, model.season_text);
        paragraph(ui, model.forecast_text);
        const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
        show_plot(ui, "history.plot", state.plot, card.inner_width(), std::max(height - used - 40.0F, 300.0F),
                  actions);
    }
    if (two_columns) ImGui::SameLine(0.0F, ui.px(12.0F));
    const Column right{ui, "history.right", 0.0F, two_columns};
    show_compare(ui, model, state, two_columns ? height : 460.0F, actions);
    return actions;
}

} // namespace harpkeep::dashboard
