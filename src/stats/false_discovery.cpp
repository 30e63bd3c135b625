// SPDX-License-Identifier: MIT
#include "stats/false_discovery.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <numeric>

namespace harpkeep::stats {

std::vector<bool> discoveries(std::span<const double> p_values, double rate)
{
    HARPKEEP_EXPECTS(rate > 0.0 && rate < 1.0);
    std::vector<std::size_t> order(p_values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return p_values[a] < p_values[b]; });
    std::size_t believed = 0;
    for (std::size_t rank = 1; rank <= order.size(); ++rank)
        if (p_values[order[rank - 1]] <= rate * static_cast<double>(rank) / static_cast<double>(order.size()))
            believed = rank;
    std::vector<bool> result(p_values.size(), false);
    for (std::size_t i = 0; i < believed; ++i) result[order[i]] = true;
    return result;
}

} // namespace harpkeep::stats
