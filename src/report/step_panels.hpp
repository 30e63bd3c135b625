// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/step_verdict.hpp"
#include "report/document.hpp"

#include <functional>
#include <span>
#include <vector>

namespace harpkeep::report {

/// The strings along the neck, a panel with tolerances for each step that the harp has, and in each panel the
/// points that `points_of` gives for its step.
[[nodiscard]] NeckChart neck_chart(const HarpLayout& layout, const ToleranceSettings& tolerances,
                                   const std::function<std::vector<ChartPoint>(Step)>& points_of);

/// The judged steps of a check along the neck, a panel for each step that the harp has.
[[nodiscard]] NeckChart steps_along_neck(const HarpLayout& layout, std::span<const StepVerdict> steps,
                                         const ToleranceSettings& tolerances);

} // namespace harpkeep::report
