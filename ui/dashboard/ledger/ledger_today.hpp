// SPDX-License-Identifier: MIT
#pragma once

#include "reason/tolerance.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "ui/dashboard/models/today_model.hpp"

#include <optional>
#include <vector>

namespace harpkeep::dashboard {

/// What the page of today is made from.
struct TodayFacts {
    HarpRecord harp;
    StoredCheck check;          ///< the youngest
    std::vector<StringLife> on; ///< strings on the harp now
    std::optional<Date> last_visit;
    ToleranceSettings tolerance;
    Date today;
};

/// The page of today: every step judged, causes told apart, the verdict and what to do, by src/reason.
[[nodiscard]] TodayModel today_from(const TodayFacts& facts);

} // namespace harpkeep::dashboard
