// SPDX-License-Identifier: MIT
#pragma once

#include "audio/capture_stream.hpp"
#include "audio/capture_system.hpp"

#include <functional>
#include <memory>
#include <string>
#include <variant>

namespace harpkeep {

/// Samples in one piece with what came before.
struct SamplesHeard {
    std::span<const float> samples;
    std::uint64_t first_frame = 0; ///< frames since the microphone was opened, lost ones included
};

/// Nothing may be measured across `at_frame`: samples are missing before it.
struct StreamBroken {
    std::uint64_t at_frame = 0;
    StreamGap gap;
};

/// Only exact zeros have come for a while: the source is muted or gone, for any real microphone has noise.
struct SourceDead {
    Seconds silence;
};

/// The source sounds again after SourceDead.
struct SourceAlive {};

/// The device went away or stands still. It is looked for until it is back.
struct DeviceLost {
    std::string reason; ///< what happened and what to do
    bool may_return = true;
};

/// The device is back; the stream goes on with a hole of unknown length.
struct DeviceBack {
    std::uint64_t at_frame = 0;
};

using MicrophoneEvent =
    std::variant<SamplesHeard, StreamBroken, SourceDead, SourceAlive, DeviceLost, DeviceBack>;

/// A microphone that outlives its device: one chosen device, opened again by its names when it was unplugged
/// or stood still, with every hole in its sound told.
class Microphone {
  public:
    static constexpr Seconds dead_after{2.0};
    static constexpr Seconds retry_every{1.0};

    /// Opens the device at its own rate.
    ///
    /// Given    system  stays alive as long as the microphone
    [[nodiscard]] static Result<std::unique_ptr<Microphone>>
    open(CaptureSystem& system, const AudioDevice& device, const CaptureSettings& settings = {});

    /// Hands everything that happened since the last call to `sink`, in order. Call it about every 10 ms.
    void poll(const std::function<void(const MicrophoneEvent&)>& sink);

    [[nodiscard]] const AudioDevice& device() const { return device_; }
    [[nodiscard]] Hertz rate() const { return rate_; }
    [[nodiscard]] bool is_open() const { return stream_ != nullptr; }
    [[nodiscard]] std::uint64_t lost_frames() const { return lost_frames_; }

  private:
    Microphone(CaptureSystem& system, AudioDevice device, const CaptureSettings& settings,
               std::unique_ptr<CaptureStream> stream);
    void take(const CaptureChunk& chunk, const std::function<void(const MicrophoneEvent&)>& sink);
    void watch_for_zeros(std::span<const float> samples,
                         const std::function<void(const MicrophoneEvent&)>& sink);
    void lose(StreamHealth health, const std::function<void(const MicrophoneEvent&)>& sink);
    void try_again(const std::function<void(const MicrophoneEvent&)>& sink);

    CaptureSystem& system_;
    AudioDevice device_;
    CaptureSettings settings_;
    Hertz rate_;
    std::unique_ptr<CaptureStream> stream_;
    std::uint64_t frame_offset_ = 0; ///< frames of the streams before this one
    std::uint64_t next_frame_ = 0;
    std::uint64_t lost_frames_ = 0;
    std::uint64_t zero_run_ = 0;
    bool dead_ = false;
    double next_try_s_ = 0.0; ///< on the steady clock
};

} // namespace harpkeep
