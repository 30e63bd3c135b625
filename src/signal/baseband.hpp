// SPDX-License-Identifier: MIT
#pragma once

#include "signal/sample_history.hpp"

#include <complex>
#include <optional>
#include <vector>

namespace harpkeep {

/// A narrow band of a sound, turned down to 0 Hz: value i is the complex amplitude of the band at
/// first_s + i * hop_s, seen through a Blackman-Harris window.
struct Baseband {
    double reference_hz = 0.0; ///< the frequency that was turned to 0 Hz
    double first_s = 0.0;      ///< time of the first value
    double hop_s = 0.0;
    std::vector<std::complex<double>> values; ///< a tone of amplitude 1 at reference_hz has modulus 1
    double correlated_values =
        1.0; ///< how many neighbouring values carry the information of one, in white noise

    [[nodiscard]] double time_s(std::size_t i) const { return first_s + hop_s * static_cast<double>(i); }
};

struct BasebandRequest {
    double reference_hz = 0.0;
    double from_s = 0.0;       ///< no sample before this time is looked at
    double to_s = 0.0;         ///< nor after this
    double window_s = 0.0;     ///< length of the window; what lies 4 / window_s away is suppressed by 92 dB
    int values_per_window = 4; ///< 4: nothing folds into the middle of the band; 2: enough for its power
};

/// Extracts one band.
///
/// Given    samples  at `rate_hz`, addressed from time 0; reference_hz below half the rate
/// Returns  the band, or nothing when the span holds less than two windows
/// Notes    Every value is a sum over samples inside [from_s, to_s] only: a sum of damped sinusoids stays one
///          exactly, with the same frequencies and decays, and no edge leaks in. Sums in single precision:
///          the samples are no better.
/// Accuracy modulus and phase of a lone tone within 1e-6 (tests/src/signal/baseband_test.cpp)
[[nodiscard]] std::optional<Baseband> extract_baseband(const SampleHistory& samples, double rate_hz,
                                                       const BasebandRequest& request);

} // namespace harpkeep
