// SPDX-License-Identifier: MIT
#include "audio/signal_condition.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr double silent_dbfs = -80.0; // three steps of a 16-bit converter: noise of the converter only
constexpr double quiet_dbfs = -45.0;  // a 16-bit recording keeps 51 dB of range at most
constexpr double offset_worth_telling = 0.01;
constexpr double clipped_worth_telling = 1e-5;
constexpr double low_rate_hz = 32000.0;   // from here up every string of a concert harp has four partials
constexpr double telephone_share = 0.425; // 3400 Hz of 8000 Hz, ITU-T G.712 (from memory)

void advise(SignalCondition& condition, double sample_rate_hz)
{
    auto& advice = condition.advice;
    if (condition.silent) {
        advice.push_back("the recording is silent: check that the right microphone is on and near the harp");
        return;
    }
    if (condition.peak_dbfs < quiet_dbfs)
        advice.push_back(
            fmt::format("the recording is very quiet (peak {:.0f} dB): move the microphone closer or raise "
                        "its level",
                        condition.peak_dbfs));
    if (condition.clipped_share > clipped_worth_telling)
        advice.push_back(fmt::format(
            "the recording is overdriven ({:.3f} % of it is cut off): lower the level or move the "
            "microphone away",
            100.0 * condition.clipped_share));
    if (std::abs(condition.dc_offset) > offset_worth_telling)
        advice.push_back(
            fmt::format("the recording has a constant offset of {:.1f} % of full scale; it is ignored, but "
                        "the sound card or cable may be faulty",
                        100.0 * condition.dc_offset));
    if (sample_rate_hz < low_rate_hz)
        advice.push_back(
            fmt::format("the recording holds {:.0f} samples a second, so strings above {:.0f} Hz cannot be "
                        "measured: record at 44100 or 48000",
                        sample_rate_hz, condition.highest_measurable_hz));
}

} // namespace

double highest_measurable_hz(double sample_rate_hz)
{
    return telephone_share * sample_rate_hz;
}

SignalCondition judge_signal(const ChannelSurvey& survey, const ChannelChoice& choice, double sample_rate_hz)
{
    SignalCondition condition{.highest_measurable_hz = highest_measurable_hz(sample_rate_hz)};
    const auto& channels = survey.channels();
    double peak = 0.0;
    for (std::size_t i = 0; i < channels.size(); ++i) {
        const ChannelStatistics& channel = channels[i];
        if (channel.is_dead()) condition.dead_channels.push_back(static_cast<int>(i) + 1);
        if (choice.weights[i] == 0.0) continue;
        const double above_mean = std::max(0.0, channel.peak - std::abs(channel.mean()));
        peak = std::max(peak, above_mean);
        condition.clipped_share = std::max(condition.clipped_share, channel.clipped_share());
        if (std::abs(channel.mean()) > std::abs(condition.dc_offset)) condition.dc_offset = channel.mean();
    }
    if (peak > 0.0) condition.peak_dbfs = std::max(condition.peak_dbfs, 20.0 * std::log10(peak));
    condition.silent = condition.peak_dbfs < silent_dbfs;
    if (channels.size() > 1 && !condition.dead_channels.empty() && !condition.silent)
        condition.advice.push_back(choice.reason);
    advise(condition, sample_rate_hz);
    return condition;
}

} // namespace harpkeep
