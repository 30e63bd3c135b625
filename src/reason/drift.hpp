// SPDX-License-Identifier: MIT
#pragma once

#include "harp/position.hpp"
#include "harp/string_place.hpp"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace harpkeep {

/// Name and version of the way in which drift is estimated; raised when a change can move a figure.
inline constexpr std::string_view drift_method = "drift-1";

/// A step error as one check found it. Days count from any fixed day, the same for all.
struct HistoryPoint {
    int day = 0;
    double error_cents = 0.0;
    double uncertainty_cents = 0.0;                  ///< standard
    std::optional<double> relative_humidity_percent; ///< logged at the check
};

/// All checks of one step, in any order.
struct StepHistory {
    StringPlace place;
    Step step = Step::lower;
    std::vector<HistoryPoint> points;
};

enum class HarpEventKind { visit, string_change };

/// Something after which a step may stand elsewhere: a technician's visit for all steps, a string change for
/// the string at `place`.
struct HarpEvent {
    HarpEventKind kind = HarpEventKind::visit;
    int day = 0;
    std::optional<StringPlace> place;
};

/// What all steps of a harp share, estimated from all of them together.
struct DriftParameters {
    double check_scatter_cents = 0.3; ///< between checks, beyond the stated uncertainty
    double wander_cents = 0.7;        ///< random walk: standard deviation after one year
    double trend_spread_cents = 1.0;  ///< of the steps' trends about their mean, a year
    double lower_trend_cents = 0.0;   ///< mean trend of the lower steps, a year
    double upper_trend_cents = 0.0;
    double season_cents = 0.5;               ///< typical yearly swing
    double humidity_cents_per_percent = 0.0; ///< typical size; 0: not logged often enough to tell
};

/// A jump at a visit or string change.
struct DriftJump {
    HarpEvent event;
    double cents = 0.0;
    double uncertainty_cents = 0.0;
};

/// An estimate with its standard uncertainty.
struct DriftEstimate {
    double value = 0.0;
    double uncertainty = 0.0;
};

/// How one step has moved.
struct StepDrift {
    StringPlace place;
    Step step = Step::lower;
    int checks = 0;
    int first_day = 0;
    int last_day = 0;
    DriftEstimate trend_cents_per_year;
    std::optional<DriftEstimate> humidity_cents_per_percent;
    std::optional<double> season_amplitude_cents; ///< nothing: too short a history to tell
    std::vector<DriftJump> jumps;
    int points_set_aside = 0; ///< far off the rest, given less than half of their weight
};

/// The histories with what was learnt from them; input to drift_curve() and forecast_leaving().
struct DriftFit {
    DriftParameters parameters;             ///< the most probable
    std::vector<DriftParameters> plausible; ///< drawn from what the data leave open, each as probable
    std::vector<StepHistory> histories;     ///< points by day
    std::vector<HarpEvent> events;
    std::vector<std::vector<double>> noise_factors; ///< of each point's variance: 1, more when it is far off
    std::vector<StepDrift> steps;
    double usual_humidity_percent = 0.0;
    bool season_told = false; ///< else too short a history: a usual season is allowed for, not estimated
};

/// Fits level, trend, random walk, season, humidity and jumps to the histories of all steps of a harp.
///
/// Given      histories without points are left out
/// Returns    nothing when no history has a point
/// Notes      A Gaussian process: step(t) = level + trend t + season + humidity + jumps + random walk, each
/// with
///            a normal prior whose size all steps share and which is estimated from them (empirical Bayes by
///            penalised marginal likelihood); so that few checks of one step borrow from the others. Points
///            far off the rest (three standard deviations of what the others foretell) lose weight.
///            Season needs five checks over more than a year, humidity four checks that differ; there is no
///            constant for humidity, each step's own data speak (neighbouring gut strings can go opposite
///            ways: Lynch-Aird and Woodhouse 2018).
/// Accuracy   docs/methods/drift.md; calibration by tests/benchmarks/drift_benchmark.cpp
/// Reference  C. E. Rasmussen, C. K. I. Williams, Gaussian Processes for Machine Learning, 2006, (2.22) to
///            (2.30), section 2.7 (from memory)
[[nodiscard]] std::optional<DriftFit> fit_drift(std::span<const StepHistory> histories,
                                                std::span<const HarpEvent> events);

/// The true step error on one day, between or beyond the checks.
struct DriftPoint {
    int day = 0;
    double cents = 0.0;
    double uncertainty_cents = 0.0; ///< standard
};

/// Estimates of one step for the days asked for, at the usual humidity.
[[nodiscard]] std::vector<DriftPoint> drift_curve(const DriftFit& fit, std::size_t step,
                                                  std::span<const int> days);

} // namespace harpkeep
