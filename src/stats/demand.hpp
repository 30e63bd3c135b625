// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

namespace harpkeep::stats {

/// Chance of each count 0, 1, 2, ... of something that is needed. Adds up to 1; what lies beyond the last
/// element, if the vector was cut, belongs to it.
using CountDistribution = std::vector<double>;

/// How many of several independent things happen, each with a chance of its own.
///
/// Given      chances in [0, 1]
/// Returns    size() + 1 chances
/// Accuracy   against the sum over all outcomes to 1e-14 (tests/src/stats/demand_test.cpp)
/// Reference  Poisson-binomial distribution by convolution (from memory)
[[nodiscard]] CountDistribution poisson_binomial(std::span<const double> chances);

/// The sum of two independent counts, cut after `longest` + 1 elements with the tail gathered in the last.
[[nodiscard]] CountDistribution sum_of(const CountDistribution& a, const CountDistribution& b,
                                       std::size_t longest);

/// A Poisson count, cut where the tail is below 1e-15.
[[nodiscard]] CountDistribution poisson_counts(double mean);

/// P(count <= n); 0 for n < 0, 1 beyond the last element.
[[nodiscard]] double chance_at_most(const CountDistribution& counts, int n);
[[nodiscard]] double mean_count(const CountDistribution& counts);

/// The smallest stock that covers the count with at least this chance.
///
/// Given      0 <= chance <= 1
/// Returns    the smallest n with P(count <= n) >= chance
[[nodiscard]] int smallest_stock(const CountDistribution& counts, double chance);

/// Chance of covering a need at which one more in stock just pays: cost_short / (cost_short + cost_over).
///
/// Given      what one missing costs and what one left over costs, both >= 0 and not both 0
/// Reference  the newsvendor rule (from memory)
[[nodiscard]] double critical_chance(double cost_short, double cost_over);

/// The stock with the least expected cost: smallest_stock() at critical_chance().
[[nodiscard]] int newsvendor_stock(const CountDistribution& counts, double cost_short, double cost_over);

/// Expected cost of a stock: cost_short for each one missing, cost_over for each one left over.
[[nodiscard]] double expected_cost(const CountDistribution& counts, int stock, double cost_short,
                                   double cost_over);

} // namespace harpkeep::stats
