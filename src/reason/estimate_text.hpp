// SPDX-License-Identifier: MIT
#pragma once

#include "stats/pooled_weibull.hpp"

#include <string>

namespace harpkeep {

/// A chance with its limits: "31 % (22 to 41 %)".
[[nodiscard]] std::string chance_text(const stats::Estimate& chance);

/// A count with its limits: "5.1 (4.4 to 5.9)".
[[nodiscard]] std::string expected_count_text(const stats::Estimate& count);

/// "12 breaks of 40 strings over 96 string-years"; exposure in days.
[[nodiscard]] std::string evidence_text(const stats::LifeEvidence& evidence);

} // namespace harpkeep
