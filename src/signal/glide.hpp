// SPDX-License-Identifier: MIT
#pragma once

#include "signal/partial_fit.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// The glide that the partials of one pluck share.
struct GlideFit {
    PitchGlide glide;                ///< its amount: the mean over what is possible; its time: the likeliest
    double amount_sd = 0.0;          ///< relative; beats that look like a glide are in it
    double probability = 0.0;        ///< that there is a glide at all
    std::vector<double> shift_hz;    ///< to be subtracted from the fitted frequency of each partial
    std::vector<double> shift_sd_hz; ///< standard uncertainty that this leaves
};

/// What is known before.
struct GlideSearch {
    double decay_rate = 1.0;    ///< alpha of the pluck, 1/s, > 0: tension relaxes with the square of the
                                ///< amplitude, so the glide's time lies near 1 / (2 alpha)
    PitchGlide start;           ///< where the search begins; amount 0: from nothing, at several times
    double unsure_amount = 0.0; ///< how far the amount may be from what was taken off: partials whose phase
                                ///< would then run out of the linear range are left out
};

/// Finds the glide that the partials of one pluck share, from the phases that single fits left over.
///
/// Given    partials     not empty; each may have had a glide taken off
/// Notes    Every partial says by itself how much the pitch fell, with its noise; a beat bends its phase too,
///          but each partial's in its own way. So the spread between partials is estimated along with what
///          they share. No glide, or one from nothing to some 3 cents downwards: each is weighed by how well
///          it explains the partials, so that a sound without glide does not pay for the term and one with it
///          is not left biased.
/// Reference  Legge & Fletcher 1984; Tolonen, Valimaki & Karjalainen 2000 (as cited in open texts)
[[nodiscard]] GlideFit fit_glide(std::span<const PartialFit> partials, const GlideSearch& search);

/// What a glide adds to the frequency that a fit without it finds, Hz: its mean over the fit, as weighted.
[[nodiscard]] double glide_shift_hz(const PartialFit& partial, const PitchGlide& glide);

} // namespace harpkeep
