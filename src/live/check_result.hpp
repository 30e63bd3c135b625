// SPDX-License-Identifier: MIT
#pragma once

#include "live/guided_check.hpp"
#include "measure/reading.hpp"

namespace harpkeep {

/// What a guided check measured, in the shape in which recordings are analysed.
///
/// Returns  the readings that count, in the order of sounding, the closing ones included; the steps of those
/// that
///          are not closing ones, for the harp moved meanwhile; what was asked for and never sounded
/// Notes    Repeats of one string and position all enter the step, as in the analysis of a recording.
[[nodiscard]] CheckResult check_result(const GuidedCheck& check);

} // namespace harpkeep
