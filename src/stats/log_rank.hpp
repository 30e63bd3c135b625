// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <optional>
#include <span>
#include <vector>

namespace harpkeep::stats {

/// Do groups live equally long?
struct LogRank {
    double chi_squared = 0.0;
    int degrees_of_freedom = 0;
    double p_value = 1.0;         ///< chance of so large a difference among equal groups
    std::vector<double> observed; ///< failures of each group
    std::vector<double> expected; ///< of each group, were all equal
};

/// Log-rank test over any number of groups, with right censoring and late entry.
///
/// Given      well-formed observations, one vector for each group
/// Returns    nothing with fewer than two groups that were ever at risk together, or without failures
/// Reference  Mantel, Cancer Chemother. Rep. 50, 163 (1966) (from memory); agrees with R survival survdiff
[[nodiscard]] std::optional<LogRank> log_rank(std::span<const std::vector<LifeObservation>> groups);

} // namespace harpkeep::stats
