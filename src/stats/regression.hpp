// SPDX-License-Identifier: MIT
#pragma once

#include <optional>
#include <span>
#include <vector>

namespace harpkeep::stats {

/// One row of a regression: what was seen, what explains it, and how far to trust it.
struct RegressionRow {
    std::vector<double> regressors; ///< write a 1 for the intercept
    double value = 0.0;
    double weight = 1.0; ///< inverse variance up to a common factor, >= 0
};

struct RegressionFit {
    std::vector<double> coefficients;
    std::vector<double> uncertainties;      ///< standard, from the scatter of the residuals
    double residual_standard_deviation = 0; ///< of a row of weight 1
    double degrees_of_freedom = 0.0;
    std::vector<double> robust_weights; ///< 1 for a row taken in full, towards 0 for one set aside
};

/// Weighted least squares by a pivoted orthogonal factorisation.
///
/// Given      rows of equal length
/// Returns    nothing when the rows do not fix every coefficient, or leave no degree of freedom
/// Accuracy   F. J. Anscombe's four sets to the published digits (tests/src/stats/regression_test.cpp)
[[nodiscard]] std::optional<RegressionFit> weighted_regression(std::span<const RegressionRow> rows);

/// The same, and rows that lie far off are given less weight: Tukey's biweight from a start at Huber's.
///
/// Notes      Tuning constants 4.685 and 1.345 keep 95 % of the efficiency for normal scatter. The scale is
///            the robust one of the residuals.
/// Reference  P. J. Huber, Robust Statistics, 1981, chapter 7 (from memory)
[[nodiscard]] std::optional<RegressionFit> robust_regression(std::span<const RegressionRow> rows);

} // namespace harpkeep::stats
