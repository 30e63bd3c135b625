// SPDX-License-Identifier: MIT
#include "reason/estimate_text.hpp"

#include "reason/observed_string.hpp"
#include "units/format_amount.hpp"

#include <fmt/format.h>

namespace harpkeep {

std::string chance_text(const stats::Estimate& chance)
{
    const auto value = probability_text(chance.value);
    const auto range = probability_range_text(chance.limits.lower, chance.limits.upper);
    return value == range ? value : fmt::format("{} ({})", value, range);
}

std::string expected_count_text(const stats::Estimate& count)
{
    return fmt::format("{} ({})", count_text(count.value),
                       count_range_text(count.limits.lower, count.limits.upper));
}

std::string evidence_text(const stats::LifeEvidence& evidence)
{
    return fmt::format("{} of {} over {} string-years", counted(evidence.failures, "break"),
                       counted(evidence.observations, "string"),
                       count_text(evidence.exposure / days_per_year));
}

} // namespace harpkeep
