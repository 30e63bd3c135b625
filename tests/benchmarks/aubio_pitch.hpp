// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace harpkeep::benchmarks {

struct AubioSettings {
    std::string method = "yin"; ///< yin, yinfft, yinfast, mcomb, fcomb, schmitt, specacf
    unsigned buffer = 4096;
    unsigned hop = 512;
};

/// What a user of the library would take as the pitch of one pluck: the median over the frames that lie after
/// the attack, and of these over the confident ones (0.8 and more) where the method has a confidence.
///
/// Given   onset_s  when the pluck starts; frames that reach back to within 50 ms after it are left out,
/// unless
///                  nothing else is there
/// Returns Hz, or nothing when no frame has a pitch
[[nodiscard]] std::optional<double> aubio_pitch_hz(const std::vector<float>& samples, double sample_rate_hz,
                                                   double onset_s, const AubioSettings& settings);

/// Runs the method over a whole recording and returns how many frames have a pitch; for timing.
[[nodiscard]] std::size_t aubio_frames(const std::vector<float>& samples, double sample_rate_hz,
                                       const AubioSettings& settings);

} // namespace harpkeep::benchmarks
