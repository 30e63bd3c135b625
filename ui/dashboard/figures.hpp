// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/models/settings_model.hpp"

#include <string>

namespace harpkeep::dashboard {

/// "+3.2" or "−0.4": cents with sign; zero has none.
[[nodiscard]] std::string signed_figure(double value, int decimals = 1);
/// "+3.2 ± 0.3": the value with its standard uncertainty.
[[nodiscard]] std::string figure_text(const Figure& figure, int decimals = 1);
/// "2026-03-14".
[[nodiscard]] std::string day_text(Day day);
/// "5 days", "7 months", "2.4 years".
[[nodiscard]] std::string age_text(double days);
/// "4 min" or "40 s".
[[nodiscard]] std::string duration_text(double seconds);
/// "7 in 100".
[[nodiscard]] std::string chance_text(double chance);

/// The place as the owner calls places.
[[nodiscard]] std::string place_name(StringPlace place, NameStyle style, StringPlace top);
/// "♭", "♮", "♯" for a pedal's positions, "open" or "engaged" else.
[[nodiscard]] std::string position_sign(Position position);
/// "flat to natural".
[[nodiscard]] std::string step_text(HarpKind kind, Step step);

} // namespace harpkeep::dashboard
