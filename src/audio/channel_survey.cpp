// SPDX-License-Identifier: MIT
#include "audio/channel_survey.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep {

namespace {

constexpr double block_s = 0.05;
constexpr double full_scale = 0.999; // 16-bit converters stop at 32767 / 32768
constexpr std::uint64_t shortest_run =
    4; // the top of a 31 Hz tone stays on one value of 16 bits for three samples
constexpr std::uint64_t fewest_tops = 5; // a sound that dies away does not come back to its very peak

double percentile(std::vector<float>& values, double share)
{
    const auto index = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
    std::nth_element(values.begin(), values.begin() + index, values.end());
    return static_cast<double>(values[static_cast<std::size_t>(index)]);
}

} // namespace

double ChannelStatistics::mean() const
{
    return frames == 0 ? 0.0 : sum / static_cast<double>(frames);
}

double ChannelStatistics::rms_without_mean() const
{
    if (frames == 0) return 0.0;
    return std::sqrt(std::max(0.0, sum_of_squares / static_cast<double>(frames) - mean() * mean()));
}

double ChannelStatistics::clipped_share() const
{
    if (frames == 0) return 0.0;
    const std::uint64_t cut =
        std::max(full_scale_samples, flat_tops >= fewest_tops ? flat_top_samples : std::uint64_t{0});
    return static_cast<double>(cut) / static_cast<double>(frames);
}

bool ChannelStatistics::is_dead() const
{
    return std::all_of(block_rms.begin(), block_rms.end(), [](float rms) { return rms == 0.0F; });
}

double ChannelStatistics::range_db() const
{
    std::vector<float> live;
    std::copy_if(block_rms.begin(), block_rms.end(), std::back_inserter(live),
                 [](float rms) { return rms > 0.0F; });
    if (live.empty()) return 0.0;
    const double loud = percentile(live, 0.95);
    return 20.0 * std::log10(loud / percentile(live, 0.05));
}

ChannelSurvey::ChannelSurvey(int channels, double sample_rate_hz)
    : statistics_(static_cast<std::size_t>(std::max(1, channels))),
      running_(statistics_.size()),
      products_(statistics_.size() * statistics_.size(), 0.0),
      block_length_(static_cast<std::size_t>(std::max(1.0, block_s * sample_rate_hz)))
{
    HARPKEEP_EXPECTS(channels > 0 && sample_rate_hz > 0.0);
}

void ChannelSurvey::operator()(std::span<const float> interleaved)
{
    const std::size_t count = statistics_.size();
    HARPKEEP_EXPECTS(interleaved.size() % count == 0);
    for (std::size_t at = 0; at < interleaved.size(); at += count) {
        for (std::size_t channel = 0; channel < count; ++channel) {
            const auto sample = static_cast<double>(interleaved[at + channel]);
            take(channel, sample);
            for (std::size_t other = channel + 1; other < count; ++other)
                products_[channel * count + other] += sample * static_cast<double>(interleaved[at + other]);
        }
        if (++in_block_ == block_length_) end_block();
    }
}

void ChannelSurvey::reset()
{
    const std::size_t count = statistics_.size();
    statistics_.assign(count, {});
    running_.assign(count, {});
    products_.assign(count * count, 0.0);
    in_block_ = 0;
}

void ChannelSurvey::take(std::size_t channel, double sample)
{
    ChannelStatistics& statistics = statistics_[channel];
    Running& running = running_[channel];
    const double magnitude = std::abs(sample);
    if (in_block_ == 0) running.block_first = sample;
    running.varies |= sample != running.block_first;
    running.block_sum += sample;
    running.block_squares += sample * sample;
    running.run = sample == running.last ? running.run + 1 : 1;
    running.last = sample;

    ++statistics.frames;
    statistics.sum += sample;
    statistics.sum_of_squares += sample * sample;
    statistics.peak = std::max(statistics.peak, magnitude);
    statistics.full_scale_samples += magnitude >= full_scale;
    if (magnitude > running.extreme) {
        running.extreme = magnitude;
        statistics.flat_top_samples = statistics.flat_tops = 0;
    }
    // Constant offsets are no flat tops: there must be sound in the block.
    if (magnitude == running.extreme && running.run >= shortest_run && running.varies) {
        statistics.flat_tops += running.run == shortest_run;
        statistics.flat_top_samples += running.run == shortest_run ? shortest_run : 1;
    }
}

void ChannelSurvey::end_block()
{
    const auto length = static_cast<double>(in_block_);
    for (std::size_t channel = 0; channel < statistics_.size(); ++channel) {
        Running& running = running_[channel];
        const double mean = running.block_sum / length;
        const double variance = std::max(0.0, running.block_squares / length - mean * mean);
        // A block that varies by less than rounding shows is still not dead.
        const float rms = running.varies ? std::max(1e-12F, static_cast<float>(std::sqrt(variance))) : 0.0F;
        statistics_[channel].block_rms.push_back(rms);
        running.block_sum = running.block_squares = 0.0;
        running.varies = false;
    }
    in_block_ = 0;
}

double ChannelSurvey::correlation(std::size_t first, std::size_t second) const
{
    HARPKEEP_EXPECTS(first < statistics_.size() && second < statistics_.size());
    if (first == second) return 1.0;
    const ChannelStatistics& a = statistics_[std::min(first, second)];
    const ChannelStatistics& b = statistics_[std::max(first, second)];
    const double power = a.rms_without_mean() * b.rms_without_mean();
    if (power <= 0.0) return 0.0;
    const double product = products_[std::min(first, second) * statistics_.size() + std::max(first, second)];
    return (product / static_cast<double>(a.frames) - a.mean() * b.mean()) / power;
}

} // namespace harpkeep
