// SPDX-License-Identifier: MIT
#include "audio/capture_microphone.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>

namespace harpkeep {

namespace {

double steady_now_s()
{
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

} // namespace

Result<std::unique_ptr<Microphone>> Microphone::open(CaptureSystem& system, const AudioDevice& device,
                                                     const CaptureSettings& settings)
{
    if (settings.channel > device.input_channels)
        return failure(ErrorCode::invalid_argument,
                       fmt::format("\"{}\" has {} input channel(s); channel {} is not among them",
                                   device.name, device.input_channels, settings.channel));
    auto stream = system.open(device, settings);
    if (!stream) return failure(stream.error());
    return std::unique_ptr<Microphone>{new Microphone(system, device, settings, std::move(*stream))};
}

Microphone::Microphone(CaptureSystem& system, AudioDevice device, const CaptureSettings& settings,
                       std::unique_ptr<CaptureStream> stream)
    : system_(system),
      device_(std::move(device)),
      settings_(settings),
      rate_(stream->rate()),
      stream_(std::move(stream))
{
}

void Microphone::poll(const std::function<void(const MicrophoneEvent&)>& sink)
{
    if (!stream_) {
        try_again(sink);
        return;
    }
    const StreamHealth health = stream_->drain([&](const CaptureChunk& chunk) { take(chunk, sink); });
    if (health != StreamHealth::running) lose(health, sink);
}

void Microphone::take(const CaptureChunk& chunk, const std::function<void(const MicrophoneEvent&)>& sink)
{
    const std::uint64_t first_frame = frame_offset_ + chunk.first_frame;
    if (chunk.gap_before) {
        lost_frames_ += chunk.gap_before->lost_frames;
        sink(StreamBroken{.at_frame = first_frame, .gap = *chunk.gap_before});
    }
    next_frame_ = first_frame + chunk.samples.size();
    watch_for_zeros(chunk.samples, sink);
    sink(SamplesHeard{.samples = chunk.samples, .first_frame = first_frame});
}

void Microphone::watch_for_zeros(std::span<const float> samples,
                                 const std::function<void(const MicrophoneEvent&)>& sink)
{
    const auto last_sounding =
        std::find_if(samples.rbegin(), samples.rend(), [](float sample) { return sample != 0.0F; });
    const auto zeros_at_end = static_cast<std::uint64_t>(last_sounding - samples.rbegin());
    const bool sounded = last_sounding != samples.rend();
    zero_run_ = sounded ? zeros_at_end : zero_run_ + samples.size();
    if (dead_ && sounded) {
        dead_ = false;
        sink(SourceAlive{});
    }
    const double run_s = static_cast<double>(zero_run_) / (rate_.value() * settings_.clock_factor);
    if (!dead_ && run_s > dead_after.value()) {
        dead_ = true;
        sink(SourceDead{.silence = Seconds{run_s}});
    }
}

void Microphone::lose(StreamHealth health, const std::function<void(const MicrophoneEvent&)>& sink)
{
    const bool closed = stream_->close();
    stream_.reset();
    frame_offset_ = next_frame_;
    zero_run_ = 0;
    next_try_s_ = steady_now_s() + retry_every.value();
    std::string reason =
        health == StreamHealth::finished
            ? fmt::format("the sound server of \"{}\" ended the recording", device_.name)
            : fmt::format("no sound comes from \"{}\" any more: it was unplugged or stands still",
                          device_.name);
    reason += closed
                  ? "; plug it in again and the work goes on"
                  : "; its driver does not answer: if it is not back soon, end harpkeep and start it again, "
                    "what was accepted is kept";
    sink(DeviceLost{.reason = reason, .may_return = closed});
}

void Microphone::try_again(const std::function<void(const MicrophoneEvent&)>& sink)
{
    // Each try on a driver that hangs would cost another thread that never ends.
    if (system_.wedged() || steady_now_s() < next_try_s_) return;
    next_try_s_ = steady_now_s() + retry_every.value();
    if (!system_.rescan()) return;
    const auto& inputs = system_.inputs();
    const auto found = std::find_if(inputs.begin(), inputs.end(), [&](const AudioDevice& candidate) {
        return candidate.host_api == device_.host_api && candidate.name == device_.name;
    });
    if (found == inputs.end() || std::abs(found->rate / rate_ - 1.0) > 1e-3) return;
    auto stream = system_.open(*found, settings_);
    if (!stream) return;
    stream_ = std::move(*stream);
    sink(DeviceBack{.at_frame = frame_offset_});
}

} // namespace harpkeep
