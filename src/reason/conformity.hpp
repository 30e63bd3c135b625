// SPDX-License-Identifier: MIT
#pragma once

#include <limits>

namespace harpkeep {

/// A measured value with its standard uncertainty; plain numbers of one unit.
struct Measured {
    double value = 0.0;
    double uncertainty = 0.0; ///< standard, > 0
    double degrees_of_freedom = std::numeric_limits<double>::infinity();
};

/// From where to where a value may lie; an open side is infinite.
struct ToleranceBand {
    double lower = -std::numeric_limits<double>::infinity();
    double upper = std::numeric_limits<double>::infinity();

    bool operator==(const ToleranceBand&) const = default;
};

/// Probability that the true value lies in the band.
///
/// Returns    Phi((upper - value) / u) - Phi((lower - value) / u); Student's distribution in Phi's place when
///            the degrees of freedom are finite
/// Reference  [JCGM106] 7.1 to 7.4, no knowledge beyond the measurement
[[nodiscard]] double conformance_probability(const Measured& measured, const ToleranceBand& tolerance);

/// How sure a decision must be.
///
/// Notes      The guard band is `student_quantile(confidence) * u`: 1.645 u at 95 %, as ISO 14253-1:2017 sets
///            by default (from memory); confidence 0.97725 is the two-u guard band of ILAC-G8.
struct DecisionRule {
    double confidence = 0.95;           ///< 0.5 < confidence < 1; near 0.5: no guard band
    bool use_degrees_of_freedom = true; ///< few repeats widen the guard band by Student's factor

    bool operator==(const DecisionRule&) const = default;
};

enum class Conformity { within, not_proven, out };

/// Width of the guard band on either side of a limit.
[[nodiscard]] double guard_band(const Measured& measured, const DecisionRule& rule);

/// Within when the value lies inside the band by the guard band, out when it lies outside by as much, else
/// not proven.
///
/// Reference  ISO 14253-1:2017 (from memory); [JCGM106] 8.3.3
[[nodiscard]] Conformity decide(const Measured& measured, const ToleranceBand& tolerance,
                                const DecisionRule& rule = {});

/// The largest standard uncertainty with which this value could be decided, at many degrees of freedom.
///
/// Returns    distance to the nearest limit by the normal guard factor; 0 on the limit
[[nodiscard]] double deciding_uncertainty(const Measured& measured, const ToleranceBand& tolerance,
                                          const DecisionRule& rule);

/// What a rule does to a production of which mean and scatter are known.
struct ConformityRisks {
    double conforming_share = 0.0; ///< of the items
    double consumers_risk = 0.0;   ///< share of items accepted though they do not conform
    double producers_risk = 0.0;   ///< share of items rejected though they conform
};

/// Global risks of accepting every item that is measured inside `acceptance`.
///
/// Given      `production`: mean and standard deviation of the items; `measuring_uncertainty` > 0
/// Accuracy   quadrature to 1e-9
/// Reference  [JCGM106] 9.5 (equations 23, 25), normal case
[[nodiscard]] ConformityRisks conformity_risks(const Measured& production, const ToleranceBand& tolerance,
                                               const ToleranceBand& acceptance, double measuring_uncertainty);

} // namespace harpkeep
