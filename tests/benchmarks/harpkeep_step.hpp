// SPDX-License-Identifier: MIT
#pragma once

#include "measure/step_measurement.hpp"
#include "synth/synthetic_recording.hpp"

#include <tl/expected.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace harpkeep::benchmarks {

/// The size of the step from `a` to `b` as harpkeep measures it; the plucks are found by harpkeep itself.
///
/// Given    a, b     one pluck each, after half a second of the room alone
///          near_hz  about where `a` sounds, within 40 cents
/// Returns  why there is none, when harpkeep finds no pluck there that it trusts
[[nodiscard]] tl::expected<StepSize, std::string>
measure_step(const std::vector<float>& a, const std::vector<float>& b, double rate, double near_hz);

/// Finds, measures and places every pluck of a whole-harp recording; for timing.
///
/// Returns  how many readings it made
[[nodiscard]] std::size_t analyse_whole_harp(const SyntheticHarp& harp, const SyntheticRecording& recording);

} // namespace harpkeep::benchmarks
