// SPDX-License-Identifier: MIT
#include "ui/support/live_recording.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace harpkeep::ui {

namespace {

// A device that was away for an hour does not leave an hour of silence.
constexpr std::uint64_t longest_filling = 10 * 48000;

} // namespace

Result<LiveRecording> LiveRecording::open(const std::string& path, Hertz rate)
{
    LiveRecording recording;
    if (path.empty()) return recording;
    auto writer = SoundWriter::create(path, {.sample_rate_hz = static_cast<int>(std::lround(rate.value()))});
    if (!writer) return failure(writer.error());
    recording.writer_ = std::move(*writer);
    return recording;
}

Result<void> LiveRecording::write(std::span<const float> samples, std::uint64_t first_frame)
{
    if (!writer_) return {};
    if (first_frame > next_frame_ && next_frame_ > 0) {
        const std::vector<float> silence(std::min(first_frame - next_frame_, longest_filling));
        if (auto filled = writer_->write(silence); !filled) return filled;
    }
    next_frame_ = first_frame + samples.size();
    return writer_->write(samples);
}

Result<void> LiveRecording::finish()
{
    return writer_ ? writer_->finish() : Result<void>{};
}

} // namespace harpkeep::ui
