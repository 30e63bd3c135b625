// SPDX-License-Identifier: MIT
#pragma once

#include "reason/tolerance.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "ui/dashboard/models/pedals_model.hpp"

namespace harpkeep::dashboard {

/// What a setting sounds like on the harp as last checked, and how to tune around it.
[[nodiscard]] PedalsModel pedals_from(const HarpRecord& harp, const StoredCheck& check,
                                      const PedalSetting& setting, const ToleranceSettings& tolerance);

} // namespace harpkeep::dashboard
