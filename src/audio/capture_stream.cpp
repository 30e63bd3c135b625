// SPDX-License-Identifier: MIT
#include "audio/capture_stream.hpp"

#include "audio/capture_deadline.hpp"
#include "base/expects.hpp"

#include <boost/lockfree/spsc_queue.hpp>
#include <fmt/format.h>
#include <portaudio.h>

#include <atomic>
#include <chrono>
#include <cmath>

namespace harpkeep {

namespace {

// Blocks of one sample were seen between blocks of 960: on the average one has far more than that.
constexpr std::size_t least_mean_block = 64;
constexpr Seconds open_deadline{8.0};
constexpr Seconds mute_after{0.1}; // five blocks overdue

double steady_now_s()
{
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

tl::unexpected<Error> open_failure(PaError error, const AudioDevice& device)
{
    const char* advice = "choose another device";
    if (error == paDeviceUnavailable)
        advice = "another program may be using it: end that, or unplug it and plug it in again";
    if (error == paInvalidSampleRate || error == paSampleFormatNotSupported)
        advice = "it does not take the rate that it offered: choose another device";
    std::string said = Pa_GetErrorText(error);
    if (error == paUnanticipatedHostError)
        if (const PaHostErrorInfo* host = Pa_GetLastHostErrorInfo()) said = host->errorText;
    return failure(ErrorCode::unavailable,
                   fmt::format("the recording device \"{}\" ({}) could not be opened at {:.0f} Hz: {}; {}",
                               device.name, device.host_api, device.rate.value(), said, advice));
}

} // namespace

/// All that the callback touches. It outlives the stream object when the driver hangs.
struct CaptureStream::Shared {
    Shared(std::size_t sample_capacity, int channel_wanted)
        : samples(sample_capacity), stamps(sample_capacity / least_mean_block + 1), channel(channel_wanted)
    {
    }

    static int on_block(const void* input, void*, unsigned long frames, const PaStreamCallbackTimeInfo* time,
                        PaStreamCallbackFlags flags, void* user);
    static void on_finished(void* user) { static_cast<Shared*>(user)->finished.store(true); }

    boost::lockfree::spsc_queue<float> samples;
    boost::lockfree::spsc_queue<BlockStamp> stamps;
    const int channel;       ///< counted from 1; as many are opened
    bool lost_block = false; ///< used by the callback alone
    std::atomic<std::uint64_t> blocks{0};
    std::atomic<std::uint64_t> ring_overruns{0};
    std::atomic<bool> finished{false};
    PaStream* stream = nullptr;
    PaError opened = paNoError;
};

int CaptureStream::Shared::on_block(const void* input, void*, unsigned long frames,
                                    const PaStreamCallbackTimeInfo* time, PaStreamCallbackFlags flags,
                                    void* user)
{
    auto& shared = *static_cast<Shared*>(user);
    shared.blocks.fetch_add(1, std::memory_order_relaxed);
    if (!input) return paContinue;
    if (shared.samples.write_available() < frames || shared.stamps.write_available() == 0) {
        shared.ring_overruns.fetch_add(frames, std::memory_order_relaxed);
        shared.lost_block = true;
        return paContinue;
    }
    const auto* sample = static_cast<const float*>(input);
    if (shared.channel == 1) {
        shared.samples.push(sample, frames);
    } else {
        sample += shared.channel - 1;
        for (unsigned long i = 0; i < frames; ++i, sample += shared.channel) shared.samples.push(*sample);
    }
    // The stamp goes last: whoever sees it finds its samples.
    shared.stamps.push({.frames = static_cast<std::uint32_t>(frames),
                        .first_sample_s = time->inputBufferAdcTime,
                        .overflow = (flags & paInputOverflow) != 0 || shared.lost_block});
    shared.lost_block = false;
    return paContinue;
}

Result<std::unique_ptr<CaptureStream>> CaptureStream::open(int index, const AudioDevice& device,
                                                           const CaptureSettings& settings,
                                                           std::shared_ptr<bool> system_wedged)
{
    HARPKEEP_EXPECTS(settings.channel >= 1 && settings.clock_factor > 0.0);
    const double rate_hz = device.rate.value();
    const double capacity = settings.ring.value() * rate_hz * settings.clock_factor;
    auto shared = std::make_shared<Shared>(static_cast<std::size_t>(capacity), settings.channel);
    const PaStreamParameters parameters{index, settings.channel, paFloat32, settings.latency.value(),
                                        nullptr};
    const bool answered = ends_within(open_deadline, [shared, parameters, rate_hz] {
        shared->opened =
            Pa_OpenStream(&shared->stream, &parameters, nullptr, rate_hz, paFramesPerBufferUnspecified,
                          paClipOff | paDitherOff, &Shared::on_block, shared.get());
        if (shared->opened != paNoError) return;
        Pa_SetStreamFinishedCallback(shared->stream, &Shared::on_finished);
        shared->opened = Pa_StartStream(shared->stream);
        if (shared->opened != paNoError) Pa_CloseStream(shared->stream);
    });
    if (!answered) {
        *system_wedged = true;
        return failure(ErrorCode::unavailable,
                       fmt::format("the recording device \"{}\" does not answer; restart its "
                                   "sound server or plug it in again",
                                   device.name));
    }
    if (shared->opened != paNoError) return open_failure(shared->opened, device);

    const double real_rate_hz = Pa_GetStreamInfo(shared->stream)->sampleRate;
    std::unique_ptr<CaptureStream> stream{
        new CaptureStream(std::move(shared), settings, Hertz{real_rate_hz}, std::move(system_wedged))};
    if (std::abs(real_rate_hz - rate_hz) > 1e-3 * rate_hz)
        return failure(
            ErrorCode::unavailable,
            fmt::format("the recording device \"{}\" runs at {:.0f} Hz where {:.0f} Hz was asked for; "
                        "choose another device",
                        device.name, real_rate_hz, rate_hz));
    return stream;
}

CaptureStream::CaptureStream(std::shared_ptr<Shared> shared, const CaptureSettings& settings, Hertz rate,
                             std::shared_ptr<bool> system_wedged)
    : shared_(std::move(shared)),
      settings_(settings),
      rate_(rate),
      system_wedged_(std::move(system_wedged)),
      continuity_(rate * settings.clock_factor),
      last_block_s_(steady_now_s())
{
}

CaptureStream::~CaptureStream()
{
    close();
}

StreamHealth CaptureStream::drain(const std::function<void(const CaptureChunk&)>& sink)
{
    HARPKEEP_EXPECTS(!closed_);
    // Health first: a stream that ends between the two still hands over what it brought.
    const StreamHealth now = health();
    BlockStamp stamp;
    while (shared_->stamps.pop(stamp)) stamps_.push_back(stamp);
    while (!stamps_.empty()) {
        // At the end of a stream there is no next block to wait for.
        if (continuity_.needs_next(stamps_.front()) && stamps_.size() < 2 && now == StreamHealth::running)
            break;
        hand_on(sink);
    }
    return now;
}

void CaptureStream::hand_on(const std::function<void(const CaptureChunk&)>& sink)
{
    const BlockStamp stamp = stamps_.front();
    stamps_.pop_front();
    block_.resize(stamp.frames);
    shared_->samples.pop(block_.data(), block_.size());
    const auto gap = continuity_(stamp, stamps_.empty() ? nullptr : &stamps_.front());
    if (gap) next_frame_ += gap->lost_frames;
    sink({.samples = block_, .first_frame = next_frame_, .gap_before = gap});
    next_frame_ += stamp.frames;
}

StreamHealth CaptureStream::health()
{
    const double now_s = steady_now_s();
    const std::uint64_t blocks = shared_->blocks.load(std::memory_order_relaxed);
    if (blocks != seen_blocks_) {
        seen_blocks_ = blocks;
        last_block_s_ = now_s;
        mute_.unmute();
    }
    if (shared_->finished.load()) return StreamHealth::finished;
    const double silence_s = now_s - last_block_s_;
    if (seen_blocks_ > 0 && silence_s > mute_after.value()) mute_.mute();
    const Seconds limit = seen_blocks_ == 0 ? settings_.first_block : settings_.next_block;
    return silence_s > limit.value() ? StreamHealth::stalled : StreamHealth::running;
}

std::uint64_t CaptureStream::ring_overruns() const
{
    return shared_->ring_overruns.load(std::memory_order_relaxed);
}

bool CaptureStream::close()
{
    if (closed_) return true;
    closed_ = true;
    // Stopping waits for the driver to finish its block and hangs when it never will; aborting can hang too.
    const bool answered = ends_within(settings_.close_deadline, [shared = shared_] {
        Pa_AbortStream(shared->stream);
        Pa_CloseStream(shared->stream);
    });
    if (!answered) {
        *system_wedged_ = true;
        mute_.keep_for_ever();
    }
    return answered;
}

} // namespace harpkeep
