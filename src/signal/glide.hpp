// SPDX-License-Identifier: MIT
#pragma once

#include "signal/partial_fit.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// A relative shift of all partials of one pluck, f(t) = f_settled (1 + amount exp(-(t - start) / time)), as
/// a tightened string makes it while it swings wide.
struct GlideFit {
    double amount = 0.0;             ///< relative, at the start of the fit; already weighed by `probability`
    double time_s = 0.0;             ///< of the fall by 1/e
    double probability = 0.0;        ///< that there is a glide worth a term of its own
    std::vector<double> shift_hz;    ///< to be subtracted from the fitted frequency of each partial
    std::vector<double> shift_sd_hz; ///< standard uncertainty that this leaves
};

/// Finds the glide that the partials of one pluck share, from the phases that single fits left over.
///
/// Given    partials     fitted without a glide
///          start_s      when the fit began
///          decay_rate   alpha of the pluck, 1/s, > 0: tension relaxes with the square of the amplitude, so
///          the
///                       glide's time lies near 1 / (2 alpha)
/// Notes    The posterior probability of a glide weighs it against none (normal prior of 3 cents), so that a
///          sound without glide does not pay for the term and one with it is not left biased.
/// Reference  Legge & Fletcher 1984; Tolonen, Valimaki & Karjalainen 2000 (as cited in open texts)
[[nodiscard]] GlideFit fit_glide(std::span<const PartialFit> partials, double start_s, double decay_rate);

} // namespace harpkeep
