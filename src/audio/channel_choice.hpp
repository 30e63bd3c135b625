// SPDX-License-Identifier: MIT
#pragma once

#include "audio/channel_survey.hpp"

#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// How one signal is made of several channels.
struct ChannelChoice {
    std::vector<double> weights; ///< one for each channel
    std::string reason;          ///< one plain sentence

    bool operator==(const ChannelChoice&) const = default;
};

/// Takes the best single channel, or the mean where two channels carry the very same sound.
///
/// Notes   Channels are not added up on suspicion: two microphones, or the two sides of a sampled harp, may
/// be in
///         antiphase or a millisecond apart, and their sum loses partials. A channel that is not clipped
///         comes before one that is; then the one wins whose sound stands farthest out of its own noise.
[[nodiscard]] ChannelChoice choose_channels(const ChannelSurvey& survey);

/// One signal out of interleaved frames.
///
/// Given   mono  room for one sample a frame
void mix_down(std::span<const float> interleaved, const ChannelChoice& choice, std::span<float> mono);

} // namespace harpkeep
