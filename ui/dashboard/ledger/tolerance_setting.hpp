// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "reason/tolerance.hpp"
#include "ui/dashboard/models/settings_model.hpp"

#include <string>

namespace harpkeep::dashboard {

/// Name of the ledger's setting that holds a harp's tolerance.
inline constexpr const char* tolerance_setting = "tolerance";

/// {"low_cents":-5,"high_cents":5,"top_low_cents":-3,"top_high_cents":8}; top: harp octaves 0 and 1.
[[nodiscard]] std::string tolerance_to_json(const ToleranceChoice& choice);
/// The inverse; corrupt when it is no such text or the limits are not in order.
[[nodiscard]] Result<ToleranceChoice> tolerance_from_json(const std::string& text);

[[nodiscard]] ToleranceSettings settings_of(const ToleranceChoice& choice);

} // namespace harpkeep::dashboard
