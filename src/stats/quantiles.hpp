// SPDX-License-Identifier: MIT
#pragma once

namespace harpkeep::stats {

/// Probability that a standard normal value is at most `z`.
[[nodiscard]] double normal_probability(double z);

/// The `z` below which a standard normal value lies with probability `p`; inverse of normal_probability().
///
/// Given      0 < p < 1
[[nodiscard]] double normal_quantile(double p);

/// Probability that a Student value with `degrees_of_freedom` is at most `t`.
///
/// Given      degrees_of_freedom > 0; infinity is the normal distribution
[[nodiscard]] double student_probability(double t, double degrees_of_freedom);

/// The `t` below which a Student value lies with probability `p`; inverse of student_probability().
///
/// Given      0 < p < 1; degrees_of_freedom > 0, infinity is the normal distribution
/// Notes      Degrees of freedom need not be whole: Welch-Satterthwaite's seldom are. [JCGM100] G.4.1 allows
///            both truncating and this.
[[nodiscard]] double student_quantile(double p, double degrees_of_freedom);

/// Half-width of the interval that holds `coverage` of the values, in standard uncertainties.
///
/// Given      0 < coverage < 1
/// Returns    1.960 for 95 % and many degrees of freedom, 4.303 for 2
[[nodiscard]] double coverage_factor(double coverage, double degrees_of_freedom);

/// Probability that a non-negative chi-square value with `degrees_of_freedom` is at most `x`.
[[nodiscard]] double chi_square_probability(double x, double degrees_of_freedom);

} // namespace harpkeep::stats
