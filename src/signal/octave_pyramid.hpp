// SPDX-License-Identifier: MIT
#pragma once

#include "signal/half_band.hpp"
#include "signal/sample_history.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep {

/// The newest seconds of a sound at its own rate and at each half of it, so that a low partial is looked at
/// with few samples. All levels share one time: sample m of level l lies at m * 2^l / rate.
class OctavePyramid {
  public:
    /// Given  rate_hz      of the sound, 4 kHz to 768 kHz
    ///        keep_s       how much of the past stays available
    OctavePyramid(double rate_hz, double keep_s);

    void push(std::span<const float> samples);
    /// The sound has ended: completes the last samples of each level.
    void finish();

    [[nodiscard]] int level_count() const { return static_cast<int>(levels_.size()); }
    [[nodiscard]] double rate_hz(int level) const { return rate_hz_ / static_cast<double>(1 << level); }
    [[nodiscard]] const SampleHistory& level(int level) const
    {
        return levels_[static_cast<std::size_t>(level)];
    }

    /// The lowest rate at which a frequency can be measured undisturbed by folding.
    [[nodiscard]] int level_for(double frequency_hz) const;
    /// The level with the lowest rate of at least `rate_hz`, or the full rate.
    [[nodiscard]] int level_with_rate(double rate_hz) const;
    /// Highest frequency that can be measured at all.
    [[nodiscard]] double highest_frequency_hz() const;
    /// Time up to which every level is complete.
    [[nodiscard]] double complete_until_s() const;

  private:
    double rate_hz_;
    std::vector<SampleHistory> levels_;
    std::vector<HalfBand> filters_;
    std::vector<float> from_, to_;
};

} // namespace harpkeep
