// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/widgets/harp_drawing.hpp"

namespace harpkeep::dashboard {

struct TodayState {
    std::optional<StringPlace> chosen;
};

/// The drawing of the harp that the page shows and exports.
[[nodiscard]] HarpDrawing today_drawing(const TodayModel& model, const TodayState& state,
                                        const Settings& settings);

/// Chooses the worst string until another one is pressed.
void prepare(const TodayModel& model, const Settings& settings, TodayState& state);

/// The harp today: its strings with their steps, the verdict, what to do.
[[nodiscard]] Actions draw(const Ui& ui, const TodayModel& model, TodayState& state);

} // namespace harpkeep::dashboard
