// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace harpkeep {

/// Halves the sample rate of a stream by a linear-phase half-band filter; sample m of the output lies at the
/// time of sample 2m of the input.
///
/// Notes     Flat to 0.35 of the output rate; what lies above 0.65 of it is suppressed by 100 dB. What lies
///           between folds onto frequencies above 0.35, where nothing is measured.
/// Accuracy  ripple under 1e-5, stop band under -100 dB (tests/src/signal/half_band_test.cpp)
class HalfBand {
  public:
    /// Highest frequency that may be used after the filter, as a part of its output rate.
    static constexpr double usable_share = 0.35;

    HalfBand();

    /// Takes the next input samples and appends to `output` those that are now complete. The edges of the
    /// stream are taken as silent: finish() completes the last samples.
    void push(std::span<const float> input, std::vector<float>& output);
    void finish(std::vector<float>& output);
    void reset();

  private:
    std::vector<double> taps_;   ///< one side of the odd taps, nearest first
    std::vector<float> pending_; ///< input not yet used up, preceded by the filter's reach
};

} // namespace harpkeep
