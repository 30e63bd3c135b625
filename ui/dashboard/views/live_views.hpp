// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/widgets/harp_drawing.hpp"

namespace harpkeep::dashboard {

struct GuidedState {
    int way = 0;
    int device = -1; ///< -1: the model's
    bool anew = false;
};
struct TuningState {
    int temperament = 0;
    bool naturals = false;
    bool around = false;
};

/// Setting up a guided check, or the check itself, to be read from two metres.
[[nodiscard]] Actions draw(const Ui& ui, const GuidedModel& model, GuidedState& state);

/// The tuning aid.
[[nodiscard]] Actions draw(const Ui& ui, const TuningModel& model, TuningState& state);

/// The strings with what is done thick and what is to come faint.
[[nodiscard]] HarpDrawing guided_drawing(const GuidedModel& model, const Settings& settings);
[[nodiscard]] HarpDrawing tuning_drawing(const TuningModel& model, const Settings& settings);

} // namespace harpkeep::dashboard
