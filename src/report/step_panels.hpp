// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "reason/step_verdict.hpp"
#include "report/document.hpp"

#include <span>

namespace harpkeep::report {

/// The judged steps of a check along the neck, a panel for each step that the harp has.
[[nodiscard]] NeckChart steps_along_neck(const HarpLayout& layout, std::span<const StepVerdict> steps,
                                         const ToleranceSettings& tolerances);

} // namespace harpkeep::report
