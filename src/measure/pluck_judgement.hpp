// SPDX-License-Identifier: MIT
#pragma once

#include "measure/pitch_candidates.hpp"
#include "measure/reading.hpp"
#include "measure/tone_measurement.hpp"
#include "signal/octave_pyramid.hpp"

#include <span>
#include <string>

#include <tl/expected.hpp>

namespace harpkeep {

/// The reason given for voices.
inline constexpr const char* talk_reason = "talk or another unsteady sound";

/// Tells a plucked string from other sounds and measures it.
///
/// Given    candidates  pitches that the sound may have, best first
/// Returns  the measurement of the best candidate, with its rivals; or what the sound was
///          instead ("knock", "noise", talk_reason, "nothing new sounds")
/// Notes    A string's partials are steady, fall evenly and lie on one series; a knock has none that lasts, a
///          voice moves.
[[nodiscard]] tl::expected<PluckMeasurement, std::string>
judge_pluck(const OctavePyramid& sound, const ToneSpan& span, std::span<const PitchCandidate> candidates);

} // namespace harpkeep
