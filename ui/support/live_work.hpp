// SPDX-License-Identifier: MIT
#pragma once

#include "audio/audio_device.hpp"
#include "audio/capture_continuity.hpp"
#include "base/result.hpp"
#include "measure/pluck_event.hpp"

#include <cstdint>
#include <mutex>
#include <span>
#include <string>

namespace harpkeep::ui {

/// The device that a live session opened.
struct OpenDevice {
    AudioDevice device;
    Hertz rate;
    std::string warning; ///< one sentence when it is not fit for measurement
};

/// What a live session does with what it hears. The thread of the session calls all of it; times and frames
/// are those of the sound, so that the same sound leads to the same whatever the computer is busy with.
class LiveWork {
  public:
    virtual ~LiveWork() = default;

    /// The device is open; sound follows.
    virtual Result<void> begin(const OpenDevice& device) = 0;
    /// The raw samples, before the plucks that they hold are heard.
    virtual Result<void> sound(std::span<const float> samples, std::uint64_t first_frame) = 0;
    virtual Result<void> hear(const PluckEvent& event) = 0;
    /// Samples are missing; the pluck that sounded was ended before them.
    virtual void gap(const StreamGap& gap) = 0;
    /// The microphone is in trouble, or (empty) well again.
    virtual void trouble(const std::string& text) = 0;
    /// Shows other threads how it stands; called after all that came at one time.
    ///
    /// Returns  whether there is anything new to see
    virtual bool publish() = 0;
    [[nodiscard]] virtual bool finished() const = 0;
    /// The device is closed and all of its sound is heard.
    virtual Result<void> end() = 0;
};

/// A value that one thread sets and others look at.
template <class Value>
class Published {
  public:
    void set(Value value)
    {
        const std::lock_guard lock{mutex_};
        value_ = std::move(value);
    }
    [[nodiscard]] Value get() const
    {
        const std::lock_guard lock{mutex_};
        return value_;
    }

  private:
    mutable std::mutex mutex_;
    Value value_;
};

} // namespace harpkeep::ui
