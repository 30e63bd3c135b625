// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/widgets/shown_plot.hpp"
#include "ui/dashboard/widgets/table.hpp"

namespace harpkeep::dashboard {

struct HistoryState {
    TableState changes;
    ShownPlot plot;
};

/// Makes what draw() shows; called between frames when the model or the settings changed.
void prepare(const HistoryModel& model, const Settings& settings, HistoryState& state);

[[nodiscard]] PlotModel history_plot(const HistoryModel& model, const Settings& settings);
[[nodiscard]] TableModel changes_table(const HistoryModel& model, const Settings& settings);

/// Any step, pedal or string over the years, and one check against another.
[[nodiscard]] Actions draw(const Ui& ui, const HistoryModel& model, HistoryState& state);

} // namespace harpkeep::dashboard
