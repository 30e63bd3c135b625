// SPDX-License-Identifier: MIT
#include "stats/demand.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace harpkeep::stats {

CountDistribution poisson_binomial(std::span<const double> chances)
{
    CountDistribution counts{1.0};
    counts.reserve(chances.size() + 1);
    for (const double chance : chances) {
        HARPKEEP_EXPECTS(chance >= 0.0 && chance <= 1.0);
        counts.push_back(0.0);
        for (std::size_t n = counts.size() - 1; n > 0; --n)
            counts[n] = counts[n] * (1.0 - chance) + counts[n - 1] * chance;
        counts[0] *= 1.0 - chance;
    }
    return counts;
}

CountDistribution sum_of(const CountDistribution& a, const CountDistribution& b, std::size_t longest)
{
    HARPKEEP_EXPECTS(!a.empty() && !b.empty());
    CountDistribution sum(std::min(a.size() + b.size() - 1, longest + 1), 0.0);
    for (std::size_t i = 0; i < a.size(); ++i)
        for (std::size_t j = 0; j < b.size(); ++j) sum[std::min(i + j, sum.size() - 1)] += a[i] * b[j];
    return sum;
}

CountDistribution poisson_counts(double mean)
{
    HARPKEEP_EXPECTS(mean >= 0.0 && mean < 1e6);
    // Terms from logs: for a large mean the first would underflow.
    CountDistribution counts;
    for (int n = 0;; ++n) {
        const double term =
            mean > 0.0 ? std::exp(n * std::log(mean) - mean - std::lgamma(n + 1.0)) : (n == 0 ? 1.0 : 0.0);
        counts.push_back(term);
        if (n > mean && term < 1e-16) return counts;
    }
}

double chance_at_most(const CountDistribution& counts, int n)
{
    if (n < 0) return 0.0;
    if (static_cast<std::size_t>(n) + 1 >= counts.size()) return 1.0;
    return std::min(1.0, std::accumulate(counts.begin(), counts.begin() + n + 1, 0.0));
}

double mean_count(const CountDistribution& counts)
{
    double mean = 0.0;
    for (std::size_t n = 0; n < counts.size(); ++n) mean += static_cast<double>(n) * counts[n];
    return mean;
}

int smallest_stock(const CountDistribution& counts, double chance)
{
    HARPKEEP_EXPECTS(chance >= 0.0 && chance <= 1.0 && !counts.empty());
    double covered = 0.0;
    for (std::size_t n = 0; n < counts.size(); ++n) {
        covered += counts[n];
        if (covered >= chance) return static_cast<int>(n);
    }
    return static_cast<int>(counts.size()) - 1; // rounding kept the sum a hair below
}

double critical_chance(double cost_short, double cost_over)
{
    HARPKEEP_EXPECTS(cost_short >= 0.0 && cost_over >= 0.0 && cost_short + cost_over > 0.0);
    return cost_short / (cost_short + cost_over);
}

int newsvendor_stock(const CountDistribution& counts, double cost_short, double cost_over)
{
    return smallest_stock(counts, critical_chance(cost_short, cost_over));
}

double expected_cost(const CountDistribution& counts, int stock, double cost_short, double cost_over)
{
    double cost = 0.0;
    for (std::size_t n = 0; n < counts.size(); ++n) {
        const double excess = static_cast<double>(n) - stock;
        cost += counts[n] * (excess > 0.0 ? cost_short * excess : -cost_over * excess);
    }
    return cost;
}

} // namespace harpkeep::stats
