// SPDX-License-Identifier: MIT
#pragma once

#include <span>

namespace harpkeep {

/// One partial's say on a quantity that all partials share.
struct LinePoint {
    double value_cents = 0.0;
    double slope_cents = 0.0;       ///< change of the value for a bend of 1
    double noise_cents2 = 0.0;      ///< variance that is known, > 0
    double unevenness_cents2 = 1.0; ///< variance besides, up to the square of a factor that all share, > 0
};

struct LineFit {
    double value_cents = 0.0;
    double bend = 0.0;
    double uncertainty_cents = 0.0;  ///< standard uncertainty of value_cents
    double degrees_of_freedom = 0.0; ///< with them the uncertainty covers 95 % as the posterior does
    double scatter = 0.0;            ///< the factor on the unevenness, as found
};

/// What is known beforehand of the factor on the unevenness (on the root of its variance): its logarithm is
/// normal about that of `factor`, or Student's with 1 / tail degrees of freedom, which hardly hinders the
/// points from saying otherwise.
struct ScatterPrior {
    double factor = 1.5, log_sd = 1.4, tail = 0.0;
};

/// Robust weighted fit of value + bend * slope.
///
/// Given    at least one point; bend_sd > 0: the bend is expected at 0 with this standard deviation;
///          prior.factor and prior.log_sd > 0, prior.tail >= 0
/// Notes    How large the scatter between partials is, is not known beforehand: two recordings of one pluck
///          agree to their noise, two plucks of one string differ by tenths of a cent. So factors from 0.007
///          to 600 are tried and weighed by how well they explain the points (marginal likelihood), as random
///          effects in a meta-analysis are; with few points the tails stay wide, as Student's do. Student
///          likelihood of 3 degrees of freedom, so that single partials do not pull. Two or three points
///          that contradict each other may agree in several places: each is sought and counts by its
///          evidence; the value is that of the likeliest, the interval holds 95 % of all.
/// Reference JCGM 100:2008, 4.3 and G.4, on what standard uncertainty and effective degrees of freedom mean
[[nodiscard]] LineFit fit_shared_line(std::span<const LinePoint> points, double bend_sd,
                                      const ScatterPrior& prior = {});

} // namespace harpkeep
