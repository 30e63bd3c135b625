// SPDX-License-Identifier: MIT
#include "audio/channel_choice.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr double same_sound = 0.99;       // correlation: what differs is 17 dB down in each
constexpr double same_level_db = 1.0;     // else the louder one is alone as good
constexpr double clipped_enough = 1e-4;   // a few samples of a pluck
constexpr double clearly_better_db = 1.0; // below that, the first channel is taken for steadiness

std::string channel_name(std::size_t channel, std::size_t count)
{
    if (count == 2) return channel == 0 ? "the left channel" : "the right channel";
    return fmt::format("channel {}", channel + 1);
}

bool is_better(const ChannelStatistics& a, const ChannelStatistics& b)
{
    if (a.is_dead() != b.is_dead()) return b.is_dead();
    const bool a_clipped = a.clipped_share() > clipped_enough, b_clipped = b.clipped_share() > clipped_enough;
    if (a_clipped != b_clipped) return b_clipped;
    return a.range_db() > b.range_db() + clearly_better_db;
}

/// The channels that carry the same sound as `best`, itself included.
std::vector<std::size_t> same_as(std::size_t best, const ChannelSurvey& survey)
{
    std::vector<std::size_t> same;
    const auto& channels = survey.channels();
    for (std::size_t other = 0; other < channels.size(); ++other) {
        const bool usable = !channels[other].is_dead() && !is_better(channels[best], channels[other]);
        if (other == best) {
            same.push_back(other);
        } else if (usable && survey.correlation(best, other) > same_sound) {
            const double level_db =
                20.0 * std::log10(channels[other].rms_without_mean() / channels[best].rms_without_mean());
            if (std::abs(level_db) < same_level_db) same.push_back(other);
        }
    }
    return same;
}

} // namespace

ChannelChoice choose_channels(const ChannelSurvey& survey)
{
    const auto& channels = survey.channels();
    const std::size_t count = channels.size();
    std::size_t best = 0;
    for (std::size_t channel = 1; channel < count; ++channel)
        if (is_better(channels[channel], channels[best])) best = channel;

    ChannelChoice choice{std::vector<double>(count, 0.0), ""};
    if (count == 1) {
        choice = {{1.0}, "the recording has one channel"};
        return choice;
    }
    const auto same = same_as(best, survey);
    for (const std::size_t channel : same) choice.weights[channel] = 1.0 / static_cast<double>(same.size());
    const auto dead =
        std::count_if(channels.begin(), channels.end(), [](const auto& c) { return c.is_dead(); });
    if (same.size() > 1)
        choice.reason = fmt::format("{} channels carry the same sound; their mean is used", same.size());
    else if (dead > 0 && !channels[best].is_dead())
        choice.reason = fmt::format("{} is used; {} of the {} channels {} silent", channel_name(best, count),
                                    dead, count, dead == 1 ? "is" : "are");
    else
        choice.reason =
            fmt::format("{} is used alone; it stands out best from its noise", channel_name(best, count));
    return choice;
}

void mix_down(std::span<const float> interleaved, const ChannelChoice& choice, std::span<float> mono)
{
    const std::size_t count = choice.weights.size();
    HARPKEEP_EXPECTS(count > 0 && interleaved.size() % count == 0 &&
                     mono.size() >= interleaved.size() / count);
    const auto only = std::find(choice.weights.begin(), choice.weights.end(), 1.0);
    const auto channel = static_cast<std::size_t>(only - choice.weights.begin());
    for (std::size_t frame = 0; frame < interleaved.size() / count; ++frame) {
        const float* samples = &interleaved[frame * count];
        if (only != choice.weights.end()) {
            mono[frame] = samples[channel];
            continue;
        }
        double sum = 0.0;
        for (std::size_t c = 0; c < count; ++c) sum += choice.weights[c] * static_cast<double>(samples[c]);
        mono[frame] = static_cast<float>(sum);
    }
}

} // namespace harpkeep
