// SPDX-License-Identifier: MIT
#pragma once

#include "reason/visit_comparison.hpp"
#include "records/visit_record.hpp"
#include "ui/support/harp_knowledge.hpp"

namespace harpkeep::ui {

/// Two checks to compare.
struct CheckPair {
    Uuid before;
    Uuid after;
};

/// The checks that a visit is judged by: the last before it and the first after it; not found when one is
/// missing.
[[nodiscard]] Result<CheckPair> checks_around(const VisitRecord& visit);

/// Scatter between checks as the harp's own history tells it, once it can.
[[nodiscard]] VisitComparisonSettings comparison_settings(const HarpKnowledge& knowledge);

} // namespace harpkeep::ui
