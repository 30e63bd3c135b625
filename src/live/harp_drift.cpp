// SPDX-License-Identifier: MIT
#include "live/harp_drift.hpp"

#include "units/interval.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep {

namespace {

double median_of(std::vector<double> values)
{
    std::sort(values.begin(), values.end());
    const std::size_t middle = values.size() / 2;
    return values.size() % 2 == 1 ? values[middle] : 0.5 * (values[middle - 1] + values[middle]);
}

} // namespace

std::optional<HarpDrift> harp_drift(std::span<const Reading> first, std::span<const Reading> again)
{
    std::vector<double> shifts_cents;
    double variance_sum = 0.0;
    for (const Reading& later : again) {
        const auto earlier = std::find_if(first.begin(), first.end(), [&](const Reading& reading) {
            return reading.place == later.place && reading.position == later.position;
        });
        if (earlier == first.end()) continue;
        shifts_cents.push_back(
            interval(Hertz{earlier->pluck.frequency_hz}, Hertz{later.pluck.frequency_hz}).value());
        variance_sum +=
            std::pow(earlier->pluck.uncertainty_cents, 2) + std::pow(later.pluck.uncertainty_cents, 2);
    }
    if (shifts_cents.size() < 3) return std::nullopt;

    const auto count = static_cast<double>(shifts_cents.size());
    const double shift = median_of(shifts_cents);
    std::vector<double> distances;
    for (const double value : shifts_cents) distances.push_back(std::abs(value - shift));
    const double scatter = 1.4826 * median_of(distances);
    const double of_readings = std::sqrt(variance_sum / count);
    return HarpDrift{.shift = Cents{shift},
                     .uncertainty = Cents{1.2533 * std::max(scatter, of_readings) / std::sqrt(count)},
                     .strings = static_cast<int>(shifts_cents.size())};
}

} // namespace harpkeep
