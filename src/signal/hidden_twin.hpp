// SPDX-License-Identifier: MIT
#pragma once

#include "signal/tone_fit.hpp"

#include <cstddef>
#include <span>

namespace harpkeep {

/// What a usual second tone would leave over after fits with one.
///
/// Given    partials  as for fit_two_tones
///          usual     the second tone that is thought of
/// Returns  mean over the partials of ln(1 + left over / noise), both as power
/// Notes    One damped tone's amplitude, phase, frequency and decay take up what they can of the second tone:
///          nearly all where the sound is short against the beat and the decays; the rest shows or hides in
///          noise.
[[nodiscard]] double expected_misfit(std::span<const TonePartial> partials, const Twin& usual);

/// Share of a usual glide that is still there when the sound ends.
///
/// Given    relaxation_s  in which a glide usually falls by 1/e, > 0
[[nodiscard]] double unsettled_share(std::span<const TonePartial> partials, double relaxation_s);

/// What a second tone that noise hides usually does to the settled pitch of one: standard deviation, cents.
///
/// Given    partial_count  > 0
///          unsettled      as unsettled_share says
/// Notes    Each partial is drawn aside by the phase in which its own two tones happen to be, which many
///          partials average out. A second tone that outlives the first raises the pitch towards the end and
///          so hides a glide: the pitch is then found too high by what has not settled.
/// Accuracy fitted to synthetic strings of 33 to 3136 Hz at 20 and 10 dB (docs/methods/two-tones.md)
[[nodiscard]] double usual_hidden_cents(std::size_t partial_count, double unsettled);

} // namespace harpkeep
