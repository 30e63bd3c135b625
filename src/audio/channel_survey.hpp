// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace harpkeep {

/// What is known of one channel of a recording so far.
struct ChannelStatistics {
    std::uint64_t frames = 0;
    double sum = 0.0;
    double sum_of_squares = 0.0;
    double peak = 0.0;                    ///< largest magnitude
    std::uint64_t full_scale_samples = 0; ///< at 0.999 and beyond
    std::uint64_t flat_top_samples = 0;   ///< in runs of one value, again and again the most extreme one
    std::uint64_t flat_tops = 0;          ///< such runs
    std::vector<float> block_rms; ///< of each 50 ms without their mean; 0 for a block of one single value

    [[nodiscard]] double mean() const;
    [[nodiscard]] double rms_without_mean() const;
    /// Share of the samples that the converter, or a limiter after it, cut off.
    [[nodiscard]] double clipped_share() const;
    /// Nothing in it but single values: no microphone, or a plug half in.
    [[nodiscard]] bool is_dead() const;
    /// How far the sound stands out of its own noise: 95th against 5th percentile of the blocks that are not
    /// dead.
    [[nodiscard]] double range_db() const;
};

/// Gathers the statistics of all channels of a stream, whatever the sizes of the pieces it comes in.
class ChannelSurvey {
  public:
    /// Given  channels > 0, sample_rate_hz > 0
    ChannelSurvey(int channels, double sample_rate_hz);

    /// Given  interleaved  whole frames
    void operator()(std::span<const float> interleaved);
    void reset();

    [[nodiscard]] const std::vector<ChannelStatistics>& channels() const { return statistics_; }

    /// Correlation of two channels: 1 for the same sound, -1 for antiphase; 0 when one has no sound.
    [[nodiscard]] double correlation(std::size_t first, std::size_t second) const;

  private:
    struct Running {
        double block_sum = 0.0, block_squares = 0.0;
        double last = 0.0, block_first = 0.0;
        double extreme = 0.0;
        std::uint64_t run = 0;
        bool varies = false;
    };
    void take(std::size_t channel, double sample);
    void end_block();

    std::vector<ChannelStatistics> statistics_;
    std::vector<Running> running_;
    std::vector<double> products_; ///< sum of x_i x_j, row by row
    std::size_t block_length_;
    std::size_t in_block_ = 0;
};

} // namespace harpkeep
