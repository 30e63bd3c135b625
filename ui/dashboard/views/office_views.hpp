// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/views/plan_form.hpp"
#include "ui/dashboard/widgets/table.hpp"

namespace harpkeep::dashboard {

struct VisitsState {
    TableState visits;
    std::optional<std::chrono::year_month> month; ///< shown; nothing: the month of today
    std::optional<Day> chosen;
    bool adding = false;
    std::string day;
    std::string who;
    std::string work;
    std::string cost;
    std::string trouble; ///< why the visit cannot be added yet
    std::string wanted;  ///< a part, as it is being typed
};
struct SettingsState {
    std::optional<ToleranceChoice> tolerance; ///< as edited; nothing: the harp's own
    RecordKey tolerance_of;
};
struct EmptyState {
    PlanFormState plan;
};
struct StartState {
    std::string name;
    int kind = 0;
    double strings = 47.0;
};

[[nodiscard]] TableModel visits_table(const VisitsModel& model);
void prepare(const VisitsModel& model, const Settings& settings, VisitsState& state);

/// "2026-11-24" as a day; nothing when it is none.
[[nodiscard]] std::optional<Day> day_from_text(std::string_view text);

[[nodiscard]] Actions draw(const Ui& ui, const VisitsModel& model, VisitsState& state);
[[nodiscard]] Actions draw(const Ui& ui, const SettingsModel& model, SettingsState& state);

/// First start: from nothing to the first check.
[[nodiscard]] Actions draw_start(const Ui& ui, StartState& state);
/// A page without anything to show: why, and what to do next.
[[nodiscard]] Actions draw(const Ui& ui, const EmptyPage& model, EmptyState& state);

} // namespace harpkeep::dashboard
