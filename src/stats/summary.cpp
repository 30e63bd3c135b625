// SPDX-License-Identifier: MIT
#include "stats/summary.hpp"

#include "base/expects.hpp"

#include <cmath>

namespace harpkeep::stats {

std::optional<Summary> summarise(std::span<const double> values)
{
    if (values.size() < 2) return std::nullopt;
    const auto count = static_cast<double>(values.size());
    double sum = 0.0;
    for (const double value : values) sum += value;
    const double mean = sum / count;
    double squares = 0.0;
    double rest = 0.0; // what rounding of the mean left over
    for (const double value : values) {
        squares += (value - mean) * (value - mean);
        rest += value - mean;
    }
    return Summary{values.size(), mean, std::sqrt((squares - rest * rest / count) / (count - 1.0))};
}

WeightedMean weighted_mean(std::span<const double> values, std::span<const double> uncertainties)
{
    HARPKEEP_EXPECTS(!values.empty() && values.size() == uncertainties.size());
    double weights = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        HARPKEEP_EXPECTS(uncertainties[i] > 0.0);
        const double weight = 1.0 / (uncertainties[i] * uncertainties[i]);
        weights += weight;
        sum += weight * values[i];
    }
    WeightedMean mean{.value = sum / weights, .uncertainty = 1.0 / std::sqrt(weights)};
    if (values.size() < 2) return mean;
    double chi_square = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const double pull = (values[i] - mean.value) / uncertainties[i];
        chi_square += pull * pull;
    }
    mean.birge_ratio = std::sqrt(chi_square / static_cast<double>(values.size() - 1));
    return mean;
}

} // namespace harpkeep::stats
