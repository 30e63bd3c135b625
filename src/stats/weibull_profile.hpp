// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <span>
#include <vector>

namespace harpkeep::stats {

/// The sums that a Weibull likelihood needs at a given shape, with ages divided by the longest exit so that
/// powers stay in range. One object serves any number of shapes.
class WeibullSums {
  public:
    /// Given  well-formed observations; `unit` the age to divide by, or 0 for the longest exit
    explicit WeibullSums(std::span<const LifeObservation> lives, double unit = 0.0);

    [[nodiscard]] double unit() const { return unit_; }
    [[nodiscard]] int failures() const { return failures_; }
    /// Sum of log(exit / unit) over the failures.
    [[nodiscard]] double log_failure_ages() const { return log_failure_ages_; }
    /// Sum of (exit/unit)^shape - (entry/unit)^shape.
    [[nodiscard]] double power_sum(double shape) const;
    /// Its first and second derivative by the shape.
    [[nodiscard]] double power_sum_slope(double shape) const;
    [[nodiscard]] double power_sum_curvature(double shape) const;
    /// Log-likelihood at a shape and log hazard factor (log of (unit / scale)^shape).
    [[nodiscard]] double log_likelihood(double shape, double log_rate) const;

  private:
    struct LogAges {
        double exit, entry;
        bool entered_late;
    };
    template <class Weight>
    [[nodiscard]] double sum(double shape, Weight weight) const;

    std::vector<LogAges> ages_; ///< logs of age / unit
    double unit_ = 1.0;
    int failures_ = 0;
    double log_failure_ages_ = 0.0;
};

} // namespace harpkeep::stats
