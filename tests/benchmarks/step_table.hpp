// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::benchmarks {

/// One step measured by one method.
struct StepOutcome {
    double natural_hz = 0.0;
    std::optional<double> error_cents; ///< measured size minus true size; nothing when the method gave none
};

/// "median|95 % gross" of the errors' magnitudes, over all and for each octave from 31 to 4000 Hz; errors
/// beyond 25 cents, and steps that were not measured, are counted as gross and left out of the percentiles.
struct StepSummary {
    int count = 0;
    double median_cents = 0.0;
    double p95_cents = 0.0;
    double gross_share = 0.0;
    double missing_share = 0.0; ///< not measured at all
};

[[nodiscard]] StepSummary summarise(const std::vector<StepOutcome>& outcomes, double lowest_hz,
                                    double highest_hz);

/// One row of the table, "median|95 % g gross n missing": over all, then for each octave from 31 to 4000 Hz.
[[nodiscard]] std::string table_row(const std::string& method, const std::vector<StepOutcome>& outcomes);
[[nodiscard]] std::string table_head(const std::string& title);

/// A method and what it gave.
struct MethodOutcomes {
    std::string method;
    std::vector<StepOutcome> outcomes;
};

/// The 95 % error of `own` against that of the best of the others, and which that is: over all, then for each
/// octave.
///
/// Notes  The others may send another method to each octave. One that is wrong by more than 25 cents or
/// silent in more
///        than half of the steps is not the best: its percentile is that of what was easy.
[[nodiscard]] std::string ratio_row(const std::vector<StepOutcome>& own,
                                    const std::vector<MethodOutcomes>& others);

} // namespace harpkeep::benchmarks
