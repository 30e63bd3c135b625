// SPDX-License-Identifier: MIT
#pragma once

#include "harp/harp_layout.hpp"
#include "harp/letter.hpp"
#include "reason/drift.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// How one step of all strings of a pedal moves, as the mean of its strings.
struct PedalDrift {
    Letter letter = Letter::C;
    Step step = Step::lower;
    std::vector<std::size_t> steps; ///< of the fit, not empty
    int checks = 0;                 ///< of the string with most
    int first_day = 0;
    int last_day = 0;
    DriftEstimate trend_cents_per_year;
};

/// The mean of the fitted drifts of a pedal's strings, or nothing when none of them was measured.
///
/// Notes  The steps of one pedal move together in part, and the fit does not say how far; their uncertainties
/// are
///        therefore averaged as if they moved wholly together, which is the most it can be.
[[nodiscard]] std::optional<PedalDrift> pedal_drift(const DriftFit& fit, Letter letter, Step step);

/// The expected mean error on given days.
[[nodiscard]] std::vector<DriftPoint> pedal_curve(const DriftFit& fit, const PedalDrift& drift,
                                                  std::span<const int> days);

/// One sentence for the player.
[[nodiscard]] std::string pedal_drift_sentence(const PedalDrift& drift, HarpKind kind);

} // namespace harpkeep
