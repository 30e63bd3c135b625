// SPDX-License-Identifier: MIT
#pragma once

#include "reason/drift.hpp"

#include <Eigen/Dense>

#include <span>
#include <vector>

namespace harpkeep {

inline constexpr double days_in_year = 365.25;

/// A day at which a step is looked at, with the humidity against the usual one.
struct DriftMoment {
    int day = 0;
    double humidity_excess_percent = 0.0;
};

/// What a column of the design stands for.
enum class DriftTerm { level, trend, season_cosine, season_sine, humidity, jump, new_trend };

/// The linear part of one step's model: columns with a normal prior each, and a random walk.
struct DriftDesign {
    std::vector<DriftTerm> terms;
    std::vector<HarpEvent> term_events; ///< of jumps and new trends; else unused
    Eigen::VectorXd prior_variances;
    int origin_day = 0;
};

/// Columns for one step: level, trend, a jump for each event after its first check, and what the parameters
/// switch on.
[[nodiscard]] DriftDesign drift_design(const StepHistory& history, std::span<const HarpEvent> events,
                                       const DriftParameters& parameters);

/// One row of the design for each moment.
[[nodiscard]] Eigen::MatrixXd drift_rows(const DriftDesign& design, std::span<const DriftMoment> moments);

/// Prior covariance of the step between moments: columns and random walk, without noise.
[[nodiscard]] Eigen::MatrixXd drift_covariance(const DriftDesign& design, const DriftParameters& parameters,
                                               std::span<const DriftMoment> a,
                                               std::span<const DriftMoment> b);

/// Observation noise of each point: stated uncertainty, check scatter, settling of a new string.
[[nodiscard]] Eigen::VectorXd drift_noise(const StepHistory& history, std::span<const HarpEvent> events,
                                          const DriftParameters& parameters,
                                          std::span<const double> noise_factors);

/// Prior mean: the mean trend of the step's kind.
[[nodiscard]] Eigen::VectorXd drift_mean(const DriftDesign& design, Step step,
                                         const DriftParameters& parameters,
                                         std::span<const DriftMoment> moments);

/// The history of a step against its prior mean, with the factorised covariance of what was seen.
struct SeenStep {
    DriftDesign design;
    std::vector<DriftMoment> moments;
    Eigen::VectorXd noise;
    Eigen::LLT<Eigen::MatrixXd> factor;
    Eigen::VectorXd rest; ///< seen less prior mean
};
[[nodiscard]] SeenStep seen_step(const DriftFit& fit, std::size_t step, const DriftParameters& parameters);

[[nodiscard]] std::vector<DriftMoment> moments_of(const StepHistory& history, double usual_humidity_percent);

/// Mean and covariance of the true step at moments, given its history.
struct DriftPosterior {
    Eigen::VectorXd mean;
    Eigen::MatrixXd covariance;
};
[[nodiscard]] DriftPosterior drift_posterior(const DriftFit& fit, std::size_t step,
                                             const DriftParameters& parameters,
                                             std::span<const DriftMoment> moments);

} // namespace harpkeep
