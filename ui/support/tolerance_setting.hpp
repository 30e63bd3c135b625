// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "reason/tolerance.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace harpkeep::ui {

/// Under this name the ledger keeps tolerances, for one harp or for all.
inline constexpr std::string_view tolerance_setting_name = "tolerance";

/// {"standard_cents": [-5, 5], "octaves_cents": {"0": [-3, 8]}, "whole_step_factor": 1.5, "watch_share": 0.5,
///  "confidence": 0.95}
[[nodiscard]] std::string tolerance_json(const ToleranceSettings& settings);

/// The inverse of tolerance_json(); members that are left out keep the project's own choice.
///
/// Returns  which member cannot be, and what could
[[nodiscard]] Result<ToleranceSettings> tolerance_from_json(std::string_view json);

/// Returns why such a tolerance cannot be judged by, or nothing when it can.
[[nodiscard]] std::optional<std::string> problem_with(const ToleranceSettings& settings);

/// The tolerances of a harp: its own, else those for all, else the project's choice.
[[nodiscard]] Result<ToleranceSettings> tolerances_of(const db::Ledger& ledger,
                                                      const std::optional<Uuid>& harp_id);

[[nodiscard]] Result<void> keep_tolerances(db::Ledger& ledger, const db::Author& author,
                                           const std::optional<Uuid>& harp_id,
                                           const ToleranceSettings& settings);

} // namespace harpkeep::ui
