// SPDX-License-Identifier: MIT
#pragma once

#include "reason/step_verdict.hpp"
#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/models/settings_model.hpp"
#include "units/date.hpp"

namespace harpkeep::dashboard {

// Small turns from the ledger's types to those of the view models.

[[nodiscard]] inline Day day_of(Date date)
{
    return Day{std::chrono::days{days_since_epoch(date)}};
}
[[nodiscard]] Date date_of(Day day);

/// "2026-03-14", "about 2024-09": a partial date is shown as it was noted.
[[nodiscard]] std::string date_text(Date date);

[[nodiscard]] State state_of(const StepVerdict& verdict);

/// The limits of the page of settings, and the same put into settings that hold more.
[[nodiscard]] ToleranceChoice choice_of(const ToleranceSettings& settings);
[[nodiscard]] ToleranceSettings with_choice(ToleranceSettings settings, const ToleranceChoice& choice);

/// "gut 1.02 mm", "steel 0.40 mm, wound with silver".
[[nodiscard]] std::string make_text(const StringMake& make);

/// "pedal harp, 47 strings, 2009".
[[nodiscard]] std::string description_of(const HarpDetails& harp);

} // namespace harpkeep::dashboard
