// SPDX-License-Identifier: MIT
#pragma once

#include "audio/audio_device.hpp"
#include "audio/capture_continuity.hpp"
#include "audio/capture_noise.hpp"
#include "base/result.hpp"

#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace harpkeep {

/// How a device is opened.
struct CaptureSettings {
    Seconds latency{0.08};     ///< asked of the driver; its own low default drops samples under load
    Seconds ring{30.0};        ///< what the ring holds while nobody drains it: a machine may be busy for long
    int channel = 1;           ///< which input of the device, counted from 1
    double clock_factor = 1.0; ///< how much faster than its rate the device delivers; only test devices do
    Seconds first_block{3.0};  ///< a device that says nothing this long after its start is stalled
    Seconds next_block{1.0};   ///< and this long after its last block
    Seconds close_deadline{2.0};
};

/// Samples as they came, in one piece.
struct CaptureChunk {
    std::span<const float> samples;
    std::uint64_t first_frame = 0;       ///< frames since the start, lost ones included
    std::optional<StreamGap> gap_before; ///< set on the first chunk after a hole
};

enum class StreamHealth {
    running,
    stalled,  ///< no block for too long: unplugged, or the driver or server stands still
    finished, ///< the driver ended the stream: the server went away
};

/// One running stream of a device, one channel of it, at the device's own rate.
///
/// Notes      The callback of the driver only copies into a ring that was allocated before and counts; the
///            rest happens in drain(), to be called about every 10 ms by one thread.
class CaptureStream {
  public:
    CaptureStream(const CaptureStream&) = delete;
    CaptureStream& operator=(const CaptureStream&) = delete;
    ~CaptureStream();

    /// Hands every sample that has come since the last call to `sink`, in order.
    ///
    /// Returns  the health of the stream by the clock of this moment
    StreamHealth drain(const std::function<void(const CaptureChunk&)>& sink);

    /// Samples a second, as the driver states it.
    [[nodiscard]] Hertz rate() const { return rate_; }
    /// Samples that found the ring full since the start; they are part of the counted holes.
    [[nodiscard]] std::uint64_t ring_overruns() const;

    /// Ends the stream; the destructor does the same.
    ///
    /// Returns  false when the driver did not answer before the deadline: the stream is given up, its memory
    ///          left to it, and the system counts as wedged
    bool close();

  private:
    friend class CaptureSystem;
    struct Shared;
    [[nodiscard]] static Result<std::unique_ptr<CaptureStream>> open(int index, const AudioDevice& device,
                                                                     const CaptureSettings& settings,
                                                                     std::shared_ptr<bool> system_wedged);
    CaptureStream(std::shared_ptr<Shared> shared, const CaptureSettings& settings, Hertz rate,
                  std::shared_ptr<bool> system_wedged);
    [[nodiscard]] StreamHealth health();
    void hand_on(const std::function<void(const CaptureChunk&)>& sink);

    std::shared_ptr<Shared> shared_; ///< what the callback touches
    CaptureSettings settings_;
    Hertz rate_;
    std::shared_ptr<bool> system_wedged_;
    CaptureContinuity continuity_;
    std::deque<BlockStamp> stamps_; ///< taken from the ring, not yet handed on
    std::vector<float> block_;
    std::uint64_t next_frame_ = 0;
    ErrorOutputMute mute_;
    std::uint64_t seen_blocks_ = 0;
    double last_block_s_ = 0.0; ///< on the steady clock
    bool closed_ = false;
};

} // namespace harpkeep
