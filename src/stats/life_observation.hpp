// SPDX-License-Identifier: MIT
#pragma once

#include <span>

namespace harpkeep::stats {

/// One life, watched from `entry` to `exit` on the thing's own clock (its age), in any one unit of time.
///
/// Given  0 <= entry < exit. `entry` is 0 when it was watched from new; more when the watching began late, so
///        that it would never have been seen had it failed before (late entry, left truncation). `failed` is
///        false when the watching ended with the thing still sound (right censoring).
struct LifeObservation {
    double entry = 0.0;
    double exit = 0.0;
    bool failed = false;
};

/// Limits that hold the true value with probability `confidence` over repetitions. A side on which the data
/// set no limit is infinite, or zero where nothing less can be.
struct ConfidenceLimits {
    double lower = 0.0;
    double upper = 0.0;
    double confidence = 0.95;
};

/// How much there is to learn from: the number behind every statement about lives.
struct LifeEvidence {
    int observations = 0;
    int failures = 0;
    double exposure = 0.0; ///< sum of exit - entry
};

[[nodiscard]] LifeEvidence evidence_of(std::span<const LifeObservation> lives);

/// True when every observation keeps the rules above; the estimators demand it.
[[nodiscard]] bool well_formed(std::span<const LifeObservation> lives);

} // namespace harpkeep::stats
