// SPDX-License-Identifier: MIT
#pragma once

#include "reason/visit_comparison.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/visit_record.hpp"
#include "report/document.hpp"

#include <optional>

namespace harpkeep::report {

/// What the sheet about a visit is made from.
struct VisitSheetInput {
    HarpRecord harp;
    Date today;
    std::optional<VisitRecord> visit; ///< nothing: two checks are compared without one
    CheckHeader before;
    CheckHeader after;
    ToleranceSettings tolerances;
    VisitComparison comparison;
};

/// Before and after: what a visit did to every step, what it cost, and what is still out.
[[nodiscard]] Document visit_sheet(const VisitSheetInput& input);

} // namespace harpkeep::report
