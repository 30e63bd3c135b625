// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/pedals_model.hpp"
#include "ui/dashboard/ui.hpp"

namespace harpkeep::dashboard {

/// The seven pedals as the player sees them, D C B | E F G A: up flat, middle natural, down sharp, each as a
/// pedal in its slot of notches, with the sign of its position in words of music.
///
/// Given  emphasised  pedals to be drawn in wood, the others quiet; all when empty
[[nodiscard]] Picture pedal_picture(const PedalSetting& setting, float width, float height,
                                    const Palette& palette);

/// Centre of the notch of `pedal` (place in pedal_order) at `level` (0 up, 1 middle, 2 down).
[[nodiscard]] Point notch_centre(int pedal, int level, float width, float height);

/// Shows the pedals so that each notch can be pressed. Returns the setting after the press.
[[nodiscard]] PedalSetting edit_pedals(const Ui& ui, std::string_view name, const PedalSetting& setting,
                                       float width, float height);

} // namespace harpkeep::dashboard
