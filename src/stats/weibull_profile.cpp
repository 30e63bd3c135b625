// SPDX-License-Identifier: MIT
#include "stats/weibull_profile.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::stats {

WeibullSums::WeibullSums(std::span<const LifeObservation> lives, double unit) : unit_(unit)
{
    HARPKEEP_EXPECTS(well_formed(lives));
    if (unit_ <= 0.0)
        for (const auto& life : lives) unit_ = std::max(unit_, life.exit);
    ages_.reserve(lives.size());
    for (const auto& life : lives) {
        const bool late = life.entry > 0.0;
        ages_.push_back({.exit = std::log(life.exit / unit_),
                         .entry = late ? std::log(life.entry / unit_) : 0.0,
                         .entered_late = late});
        if (!life.failed) continue;
        ++failures_;
        log_failure_ages_ += ages_.back().exit;
    }
}

template <class Weight>
double WeibullSums::sum(double shape, Weight weight) const
{
    double total = 0.0;
    for (const auto& age : ages_) {
        total += std::exp(shape * age.exit) * weight(age.exit);
        if (age.entered_late) total -= std::exp(shape * age.entry) * weight(age.entry);
    }
    return total;
}

double WeibullSums::power_sum(double shape) const
{
    return sum(shape, [](double) { return 1.0; });
}

double WeibullSums::power_sum_slope(double shape) const
{
    return sum(shape, [](double log_age) { return log_age; });
}

double WeibullSums::power_sum_curvature(double shape) const
{
    return sum(shape, [](double log_age) { return log_age * log_age; });
}

double WeibullSums::log_likelihood(double shape, double log_rate) const
{
    // density of an age in the caller's unit: hazard (shape / unit) rate (t/unit)^(shape - 1)
    const double d = failures_;
    return d * (std::log(shape) + log_rate - std::log(unit_)) + (shape - 1.0) * log_failure_ages_ -
           std::exp(log_rate) * power_sum(shape);
}

} // namespace harpkeep::stats
