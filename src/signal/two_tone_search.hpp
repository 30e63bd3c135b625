// SPDX-License-Identifier: MIT
#pragma once

#include "signal/tone_problem.hpp"

#include <vector>

namespace harpkeep {

/// Of the log of what one tone leaves over against the noise, the share that two must explain to be believed
/// at all, and surely: measured, synthetic strings with a twin 0.9 to 1, recorded plucks on which two tones
/// are not all that goes on 0.1 to 0.4.
inline constexpr double explained_least = 0.55, explained_surely = 0.8;

/// Mean of the log of what is left over against the noise; by chance it is as often below zero as above.
[[nodiscard]] double misfit(const ToneProblem::Readings& readings);

/// Share of the misfit of one tone that two tones explain.
[[nodiscard]] double explained_share(double misfit_alone, double misfit_together);

/// A solved explanation by two tones.
struct TwoTones {
    ToneState state;
    ToneProblem::Readings readings;
    bool above = false; ///< the second tone above the main one, where the search began
    double weight = 0.0;
};

/// The likeliest of them, at least one.
[[nodiscard]] const TwoTones& likeliest(const std::vector<TwoTones>& explanations);

/// The likeliest explanation with the second tone above the main one, and below unless that is hopeless.
[[nodiscard]] std::vector<TwoTones> explain_by_two(const ToneProblem& problem, const ToneState& alone,
                                                   double misfit_alone);

/// The same explanations spread over ratios of the decays, each as likely as it makes the sound.
///
/// Notes  The likeliest ratio is not the middle of what is possible: where the twins are barely heard, one
///        that dies slowly and is weak spoils little, and ratio and size sink together. The evidence, in
///        which each twin's own amplitude is integrated, does not follow them.
[[nodiscard]] std::vector<TwoTones> spread_over_decay_ratios(const ToneProblem& problem,
                                                             const std::vector<TwoTones>& explanations);

} // namespace harpkeep
