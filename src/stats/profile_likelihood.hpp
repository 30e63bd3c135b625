// SPDX-License-Identifier: MIT
#pragma once

#include "stats/life_observation.hpp"

#include <functional>

namespace harpkeep::stats {

/// A function on the line and where it is greatest.
struct Peak {
    double at = 0.0;
    double value = 0.0;
    bool on_edge = false; ///< greatest at an end of the range: no maximum inside
};

/// Greatest value on [low, high], by a scan of `nodes` and a refinement around the best of them.
///
/// Accuracy  position to about 1e-8 of the range, value to rounding; finds the highest peak when peaks lie
///           wider apart than the scan's step
[[nodiscard]] Peak highest(const std::function<double(double)>& function, double low, double high, int nodes);

/// Limits of one parameter from the profile of the log-likelihood: where it has fallen by half the
/// chi-squared quantile with one degree of freedom.
///
/// Given      profile   log-likelihood maximised over everything else, as a function of the parameter on a
///                      scale where it runs over the whole line
///            estimate, maximum  where it is greatest, and its value there
///            first_step  about one standard error; `reach` how far to look on either side
/// Returns    limits on the same scale; infinite on a side where the profile never falls so far within reach
/// Reference  Cox & Oakes, Analysis of Survival Data, 1984, section 3.3 (from memory)
[[nodiscard]] ConfidenceLimits profile_limits(const std::function<double(double)>& profile, double estimate,
                                              double maximum, double confidence, double first_step,
                                              double reach);

} // namespace harpkeep::stats
