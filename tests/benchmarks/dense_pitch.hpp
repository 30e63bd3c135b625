// SPDX-License-Identifier: MIT
#pragma once

#include "tests/support/step_battery.hpp"
#include "tests/support/two_tone_bound.hpp"

namespace harpkeep::benchmarks {

/// The pitch's error where the dense twin of the fit of two tones ends when it begins at the truth, on bands
/// as the fit cuts them: what the fit's model makes of the pluck, whatever its starts.
///
/// Given  truth  the same pluck, with two polarisations
[[nodiscard]] double dense_pitch_error_cents(const tests::BatteryPluck& pluck,
                                             const tests::TwoTonePluck& truth);

} // namespace harpkeep::benchmarks
