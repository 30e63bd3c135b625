// SPDX-License-Identifier: MIT
#pragma once

#include "signal/tone_fit.hpp"

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

} // namespace harpkeep
