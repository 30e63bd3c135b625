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

PlotModel against_days(double low, double high)
{
    PlotModel plot;
    plot.x.kind = AxisKind::date;
    plot.bands.push_back({{}, Tint::band, 255, {{-1e6, low, high}, {1e6, low, high}}});
    return plot;
}

} // namespace

PlotModel humidity_plot(const ClimateModel& model)
{
    PlotModel plot = against_days(model.humidity_low_percent, model.humidity_high_percent);
    plot.title = fmt::format(text::humidity_title_format, model.place);
    plot.y.title = text::axis_humidity;
    PlotSeries series{{}, SeriesLook::line, Tint::string_f, false, {}};
    for (const auto& p : model.points) series.points.push_back({.x = p.day, .y = p.humidity_percent});
    plot.series.push_back(std::move(series));
    return plot;
}

PlotModel temperature_plot(const ClimateModel& model)
{
    PlotModel plot = against_days(model.temperature_low_c, model.temperature_high_c);
    plot.title = fmt::format(text::temperature_title_format, model.place);
    plot.y.title = text::axis_temperature;
    PlotSeries series{{}, SeriesLook::line, Tint::wood, false, {}};
    for (const auto& p : model.points) series.points.push_back({.x = p.day, .y = p.temperature_c});
    plot.series.push_back(std::move(series));
    return plot;
}

void prepare(const ClimateModel& model, const Settings&, ClimateState& state)
{
    state.humidity = humidity_plot(model);
    state.temperature = temperature_plot(model);
}

Actions draw(const Ui& ui, const ClimateModel& model, ClimateState& state)
{
    Actions actions;
    const float height = ImGui::GetContentRegionAvail().y / ui.scale;
    const Card card{ui, "climate.card"};
    const float head = ImGui::GetCursorPosY();
    paragraph(ui,
              fmt::format(text::inside_format, percent_text(model.share_inside), model.humidity_low_percent,
                          model.humidity_high_percent, model.temperature_low_c, model.temperature_high_c));
    paragraph(ui, text::band_source, Tint::quiet_ink);
    for (const auto& remark : model.remarks) show_advice(ui, remark);
    if (button(ui, "climate.import", text::import_climate, text::import_climate_why))
        actions.push_back(ChooseFile{ChooseFile::Purpose::climate_table});
    const float used = (ImGui::GetCursorPosY() - head) / ui.scale;
    const float tall = std::max(0.5F * (height - used - 48.0F), 200.0F);
    show_plot(ui, "climate.humidity", state.humidity, card.inner_width(), tall, actions);
    show_plot(ui, "climate.temperature", state.temperature, card.inner_width(), tall, actions);
    return actions;
}

} // namespace harpkeep::dashboard
