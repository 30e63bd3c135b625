// SPDX-License-Identifier: MIT
#pragma once

#include "ui/support/live_work.hpp"
#include "ui/support/recording_device.hpp"

#include <atomic>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace harpkeep::ui {

/// A thread that opens a microphone and lets a work hear it, so that a window or a terminal is never held up
/// by a device or a measurement.
///
/// Notes  One session at a time: PortAudio is one for the process. Between construction and end of the
/// session
///        the work belongs to its thread; others look at what it publishes and tell() it what to do.
class LiveSession {
  public:
    /// Something to be done on the thread of the session.
    using Command = std::function<Result<void>()>;

    /// Begins at once; opening the device may take seconds and is part of it.
    ///
    /// Given  work     outlives the session
    ///        changed  called on the thread of the session whenever a screen may have something new to show,
    ///                 and when the session ends
    LiveSession(DeviceChoice choice, LiveWork& work, std::function<void()> changed = {});
    LiveSession(const LiveSession&) = delete;
    LiveSession& operator=(const LiveSession&) = delete;
    /// Stops and waits.
    ~LiveSession();

    /// Has this done between two pieces of sound; dropped when the session has ended.
    void tell(Command command);
    /// Asks the session to end; what sounds is still measured with what is there.
    void stop();
    /// Whether nothing more will happen; then the work is free again.
    [[nodiscard]] bool ended() const { return ended_; }
    /// Waits for the end and says how it went: a device that could not be opened, a disk that is full.
    [[nodiscard]] Result<void> wait();

  private:
    void run();
    [[nodiscard]] Result<void> listen();
    [[nodiscard]] Result<void> obey();
    void show();
    void rest();

    DeviceChoice choice_;
    LiveWork& work_;
    std::function<void()> changed_;
    std::mutex mutex_;
    std::condition_variable told_;
    std::vector<Command> commands_;
    bool stop_asked_ = false;
    std::atomic<bool> ended_{false};
    Result<void> result_{};
    std::thread thread_; // the last member: it uses all the others
};

} // namespace harpkeep::ui
