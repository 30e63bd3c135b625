// SPDX-License-Identifier: MIT
#pragma once

#include <span>

namespace harpkeep::stats {

/// Middle value; for an even count the mean of the two in the middle.
///
/// Given      at least one value, in any order
[[nodiscard]] double median(std::span<const double> values);

/// Standard deviation of the bulk of the values, whatever up to half of them do: 1.4826 times the median
/// distance from the median.
///
/// Given      at least one value, in any order
/// Returns    an estimate that is right for normal values, 0 when more than half are equal
/// Notes      The factor is 1 / normal_quantile(3/4). Spread 1.6 times that of the standard deviation.
/// Reference  F. R. Hampel, J. Amer. Statist. Assoc. 69 (1974) 383 (from memory)
[[nodiscard]] double robust_scale(std::span<const double> values);

/// The value below which a share `fraction` of the values lies, by straight lines between the ordered ones.
///
/// Given      at least one value; 0 <= fraction <= 1
/// Reference  R. J. Hyndman, Y. Fan, Amer. Statist. 50 (1996) 361, definition 7 (from memory)
[[nodiscard]] double sample_quantile(std::span<const double> values, double fraction);

} // namespace harpkeep::stats
