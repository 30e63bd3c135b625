// SPDX-License-Identifier: MIT
#include "stats/robust_scale.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep::stats {

double sample_quantile(std::span<const double> values, double fraction)
{
    HARPKEEP_EXPECTS(!values.empty());
    HARPKEEP_EXPECTS(fraction >= 0.0 && fraction <= 1.0);
    std::vector<double> sorted(values.begin(), values.end());
    std::sort(sorted.begin(), sorted.end());
    const double place = fraction * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(place);
    const auto above = std::min(below + 1, sorted.size() - 1);
    return sorted[below] + (place - static_cast<double>(below)) * (sorted[above] - sorted[below]);
}

double median(std::span<const double> values)
{
    return sample_quantile(values, 0.5);
}

double robust_scale(std::span<const double> values)
{
    constexpr double to_standard_deviation = 1.482602218505602; // 1 / normal quantile of 3/4
    const double middle = median(values);
    std::vector<double> distances;
    distances.reserve(values.size());
    for (const double value : values) distances.push_back(std::abs(value - middle));
    return to_standard_deviation * median(distances);
}

} // namespace harpkeep::stats
