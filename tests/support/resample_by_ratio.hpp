// SPDX-License-Identifier: MIT
#pragma once

#include <span>
#include <vector>

namespace harpkeep::tests {

/// Raises the pitch of a recording by an exactly known ratio: y[m] = x(m ratio), played at the same rate.
///
/// Given     samples  taken as zero outside
///           ratio    0.5 to 2: new frequency over old
/// Returns   the samples m = 0, 1, ... as long as m ratio lies within the recording
/// Notes     Sinc under a Kaiser window, 128 zero crossings to each side, in double precision. What would lie
/// above
///           half the sampling rate is removed. Every partial moves by the same ratio: B stays what it was.
/// Accuracy  sinusoids below 0.93 of the lower band edge agree with the analytic ones within 1e-6 (-120 dB),
/// which
///           bounds the error of a frequency measured over half a second to 1e-6 cent at 440 Hz
///           (tests/support/resample_by_ratio_test.cpp)
/// Reference J. F. Kaiser, window design for 130 dB (from memory: beta = 0.1102 (A - 8.7),
///           width = (A - 8) / (2.285 taps))
[[nodiscard]] std::vector<double> resample_by_ratio(std::span<const double> samples, double ratio);

} // namespace harpkeep::tests
