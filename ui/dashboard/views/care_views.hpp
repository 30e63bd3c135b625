// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/views/loan_form.hpp"
#include "ui/dashboard/views/plan_form.hpp"
#include "ui/dashboard/widgets/shown_plot.hpp"
#include "ui/dashboard/widgets/table.hpp"

namespace harpkeep::dashboard {

struct StringsState {
    MakeFormState make;
    std::string make_trouble;
    int tab = 0;
    int curve = 0;
    TableState rows;
    TableState stock;
    ShownPlot risk;
    std::vector<ShownPlot> lives;
};
struct TensionState {
    PlanFormState plan;
    std::string planned_for; ///< key of the row that the form was filled from
    TableState rows;
    ShownPlot pull;
    ShownPlot breaking;
};
struct PedalsState {
    TableState rows;
};
struct ClimateState {
    ShownPlot humidity;
    ShownPlot temperature;
};
struct RoomState {
    TableState rows;
    std::string counts; ///< how many harps stand in each state
    LoanFormState loan;
};

// prepare() makes what draw() shows; called between frames when the model or the settings changed.
void prepare(const StringsModel& model, const Settings& settings, StringsState& state);
void prepare(const TensionModel& model, const Settings& settings, TensionState& state);
void prepare(const PedalsModel& model, const Settings& settings, PedalsState& state);
void prepare(const ClimateModel& model, const Settings& settings, ClimateState& state);
void prepare(const RoomModel& model, const Settings& settings, RoomState& state);

[[nodiscard]] TableModel strings_table(const StringsModel& model, const Settings& settings);
[[nodiscard]] TableModel stock_table(const StringsModel& model);
[[nodiscard]] PlotModel risk_plot(const StringsModel& model, const Settings& settings);
[[nodiscard]] PlotModel life_plot(const LifeCurve& curve);
[[nodiscard]] TableModel tension_table(const TensionModel& model, const Settings& settings);
[[nodiscard]] PlotModel tension_plot(const TensionModel& model, const Settings& settings);
[[nodiscard]] PlotModel breaking_plot(const TensionModel& model, const Settings& settings);
[[nodiscard]] TableModel around_table(const PedalsModel& model, const Settings& settings);
[[nodiscard]] PlotModel humidity_plot(const ClimateModel& model);
[[nodiscard]] PlotModel temperature_plot(const ClimateModel& model);
[[nodiscard]] TableModel room_table(const RoomModel& model);

[[nodiscard]] Actions draw(const Ui& ui, const StringsModel& model, StringsState& state);
[[nodiscard]] Actions draw(const Ui& ui, const TensionModel& model, TensionState& state);
[[nodiscard]] Actions draw(const Ui& ui, const PedalsModel& model, PedalsState& state);
[[nodiscard]] Actions draw(const Ui& ui, const ClimateModel& model, ClimateState& state);
[[nodiscard]] Actions draw(const Ui& ui, const RoomModel& model, RoomState& state);

} // namespace harpkeep::dashboard
