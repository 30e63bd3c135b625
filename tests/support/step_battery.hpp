// SPDX-License-Identifier: MIT
#pragma once

#include "synth/synthetic_string.hpp"

#include <cstdint>
#include <optional>
#include <vector>

namespace harpkeep::tests {

/// A string of an invented harp, plucked alone in two positions in a noisy room, as a test describes it.
struct StepBatteryCase {
    double lower_hz = 261.6; ///< settled first partial in the lower position, about
    double snr_db = 30.0; ///< rms of the pluck over its first half second against the noise in the whole band
    bool twin = true;     ///< a second polarisation, drawn anew for each pluck
    double partial_deviation_sd_cents = 0.0;
    double rings_s = 1.7; ///< until the next pluck begins
    std::uint64_t seed = 1;
};

/// One pluck of it: what is true, and what the microphone gives.
struct BatteryPluck {
    SyntheticString string;
    SyntheticPluck pluck;
    double first_hz = 0.0;  ///< settled
    double noise_rms = 0.0; ///< half of its power is pink, half white
    std::vector<float> sound;
};

struct BatteryStep {
    BatteryPluck lower, upper;
    double size_cents = 0.0;
};

inline constexpr double battery_rate_hz = 48000.0;
inline constexpr double battery_onset_s = 0.6; ///< when the pluck is let go

[[nodiscard]] BatteryStep sound_battery_step(const StepBatteryCase& settings);

/// Errors of what the program reports, against what is true.
struct StepBatteryResult {
    std::vector<double> pitch_errors_cents, pitch_uncertainties_cents, pitch_freedoms;
    std::vector<double> step_errors_cents, step_uncertainties_cents, step_freedoms;
    int lost = 0;        ///< plucks that were not found, or measured with a doubt
    double work_s = 0.0; ///< of the measurement
};

/// Finds and measures both plucks with the program's own stream.
void measure_battery_step(const BatteryStep& step, StepBatteryResult& result);
/// Plucks the string in both positions, and measures both.
void run_step_battery(const StepBatteryCase& settings, StepBatteryResult& result);

/// Share of errors within the 95 % interval of their uncertainty and degrees of freedom.
[[nodiscard]] double coverage_of(const std::vector<double>& errors_cents,
                                 const std::vector<double>& uncertainties_cents,
                                 const std::vector<double>& freedoms);
/// Quantile of the absolute values.
[[nodiscard]] double absolute_quantile(std::vector<double> errors_cents, double share);
/// Mean half-width of the 95 % intervals against the 95 % quantile of the errors.
[[nodiscard]] double interval_ratio(const std::vector<double>& errors_cents,
                                    const std::vector<double>& uncertainties_cents,
                                    const std::vector<double>& freedoms);

} // namespace harpkeep::tests
