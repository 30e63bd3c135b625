// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_clusters.hpp"
#include "reason/life_study.hpp"
#include "reason/replacement.hpp"
#include "reason/spare_plan.hpp"
#include "strings/stringing.hpp"
#include "ui/cli/output.hpp"

namespace harpkeep::cli {

// Findings about strings as JSON for programs. Keys carry their units; chances are shares of 1; what is not
// known, or has no limit, is null.

[[nodiscard]] Json json_of(const stats::Estimate& estimate);
[[nodiscard]] Json json_of(const stats::LifeEvidence& evidence);
[[nodiscard]] Json json_of(const LifeStudy& study);
[[nodiscard]] Json json_of(const ClusterReport& report);
[[nodiscard]] Json json_of(const BreakRisk& risk);
[[nodiscard]] Json json_of(const RiskReport& report);
[[nodiscard]] Json json_of(const ReplacementPlan& plan);
[[nodiscard]] Json json_of(const SparePlan& plan);
[[nodiscard]] Json json_of(const StringFigures& figures);
[[nodiscard]] Json json_of(const StringChange& change);

} // namespace harpkeep::cli
