// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "measure/placement.hpp"
#include "measure/reading.hpp"

#include <span>
#include <vector>

namespace harpkeep {

struct CheckSettings {
    Hertz a4{440.0};
};

/// Makes a check of the plucks of one or more recordings: places them, measures the steps, names what is
/// missing.
///
/// Given    plucks   in the order in which they were sounded
///          ignored  sounds that were no plucks
/// Notes    Only trusted readings enter a step. A reading far from where it should be, or one that disagrees
/// with
///          repeats of the same string and position, is kept with its doubt and not used.
[[nodiscard]] CheckResult assemble_check(const HarpLayout& layout, std::span<const HeardPluck> plucks,
                                         std::vector<IgnoredSound> ignored, const CheckSettings& settings);

/// The steps that a set of readings gives, lowest string first; untrusted readings are left out.
void measure_steps(const HarpLayout& layout, CheckResult& check);

} // namespace harpkeep
