// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace harpkeep::stats {

/// Mean and scatter of a sample.
struct Summary {
    std::size_t count = 0;
    double mean = 0.0;
    double standard_deviation = 0.0; ///< of a single value, with count - 1
};

/// Given    any values
/// Returns  nothing for fewer than two
/// Notes    Two passes: a one-pass sum of squares loses every digit of NIST's NumAcc4.
[[nodiscard]] std::optional<Summary> summarise(std::span<const double> values);

/// A mean of values that differ in trust.
struct WeightedMean {
    double value = 0.0;
    double uncertainty = 0.0; ///< standard, of the mean, from the stated uncertainties alone
    double birge_ratio = 0.0; ///< about 1 when the values scatter as they state; 0 for a single value
};

/// Mean with weights 1 / uncertainty^2.
///
/// Given      at least one value, as many uncertainties, each > 0
/// Reference  R. T. Birge, Phys. Rev. 40 (1932) 207 (from memory)
[[nodiscard]] WeightedMean weighted_mean(std::span<const double> values,
                                         std::span<const double> uncertainties);

} // namespace harpkeep::stats
