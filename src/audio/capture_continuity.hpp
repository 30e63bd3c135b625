// SPDX-License-Identifier: MIT
#pragma once

#include "units/quantity.hpp"

#include <cstdint>
#include <optional>

namespace harpkeep {

/// What the driver says about one block of samples.
struct BlockStamp {
    std::uint32_t frames = 0;
    double first_sample_s = 0.0; ///< when its first sample was taken, on the clock of the driver
    bool overflow = false;       ///< the driver or the ring lost samples somewhere near this block
};

/// A hole in the stream of samples. No pitch may be measured across it.
struct StreamGap {
    std::uint64_t lost_frames = 0;
    bool counted = false; ///< false: the driver spoke of a loss but its clock shows none
};

/// Counts lost samples from the jumps of the driver's clock.
///
/// Notes      The overflow flag alone does not count: it was seen on five blocks for one hole of 721 frames,
///            where the clock gave 722. A jump counts when it is longer than `flagged_jump` within
///            `flag_memory` of a flag, or longer than `silent_jump` without one. A flag without a jump marks
///            a hole of unknown size once. A single block may carry a wrong time when the driver was held up
///            between its two questions: a jump without a flag that the next block takes back is none, so
///            for such a block the next one must be known. The base line follows the clock slowly, so that a
///            card that runs 100 ppm off does not add up to a jump.
/// Accuracy   the virtual microphone loses a known number of frames: counted to 2 frames
///            (tests/src/audio/capture_test.cpp); its clock jitters by 0.8 frame
class CaptureContinuity {
  public:
    static constexpr Seconds flagged_jump{0.00025};
    static constexpr Seconds silent_jump{0.020};
    static constexpr Seconds flag_memory{0.5};

    /// Given  rate  samples a second of the driver's clock
    explicit CaptureContinuity(Hertz rate);

    /// Whether a block can only be judged together with the next one.
    [[nodiscard]] bool needs_next(const BlockStamp& stamp) const;

    /// Given    next  the block after it, where it is known
    /// Returns  the hole before this block, or nothing when it follows the last one
    [[nodiscard]] std::optional<StreamGap> operator()(const BlockStamp& stamp,
                                                      const BlockStamp* next = nullptr);

    /// Forgets all: the next block is a first one.
    void reset();

  private:
    [[nodiscard]] double jump_of(const BlockStamp& stamp) const;
    [[nodiscard]] bool is_flagged(const BlockStamp& stamp) const;
    [[nodiscard]] bool takes_back(const BlockStamp& stamp, const BlockStamp& next) const;
    std::optional<StreamGap> judge(double jump_s, bool flagged, bool first_flag);

    double rate_hz_;
    std::optional<double> expected_s_; ///< when the next block should begin
    std::optional<double> flag_until_s_;
};

} // namespace harpkeep
