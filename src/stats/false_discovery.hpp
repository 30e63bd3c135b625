// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

namespace harpkeep::stats {

/// Which of many tests to believe, so that of those believed at most a share `rate` is expected to be chance.
///
/// Given      p-values, each 0..1; 0 < rate < 1
/// Returns    for each p-value whether its finding stands
/// Reference  Y. Benjamini, Y. Hochberg, J. R. Statist. Soc. B 57 (1995) 289 (from memory)
[[nodiscard]] std::vector<bool> discoveries(std::span<const double> p_values, double rate);

} // namespace harpkeep::stats
