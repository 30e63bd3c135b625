// SPDX-License-Identifier: MIT
#pragma once

#include "live/room_check.hpp"
#include "ui/support/check_keeper.hpp"
#include "ui/support/live_recording.hpp"
#include "ui/support/live_session.hpp"

#include <functional>
#include <memory>
#include <string>

namespace harpkeep::ui {

/// How a live check stands, for a screen.
struct LiveCheckView {
    std::optional<OpenDevice> device; ///< nothing while it is being opened
    bool judging_room = false;        ///< be silent: the room is judged; the first pluck ends it
    std::optional<RoomReport> room;   ///< once it is judged
    std::string trouble;              ///< of the microphone; empty when all is well
    std::optional<Decibels> level;    ///< of the last tenth of a second, re full scale
    std::uint64_t lost_frames = 0;
    GuidedCheckView check;
    std::shared_ptr<const GuidedCheckState> state; ///< every reading kept so far
};

/// Who is told at once what a live check does, on the thread of the session.
class LiveCheckObserver {
  public:
    virtual ~LiveCheckObserver() = default;
    virtual void opened(const OpenDevice&) {}
    virtual void judged_room(const RoomReport&) {}
    virtual void trouble(const std::string&) {}
    virtual void gap(const StreamGap&) {}
    /// After an event of the sound or a wish of the player; `sounding` while a pluck is estimated.
    virtual void went_on(const GuidedCheckOutcome&, const GuidedCheckView&, bool /*sounding*/) {}
};

/// A guided check of a harp of the ledger that listens to a microphone: the same for the terminal and the
/// window.
///
/// Notes  Each reading that is kept is on the disk before the next piece of sound is looked at. All functions
/// but
///        begin() and store() may be called from any thread and never wait for a device or the disk.
class LiveCheck {
  public:
    /// Begins a check or goes on with the stopped one; listens from now on.
    ///
    /// Given    ledger    open for writing, given away; when the window needs one it opens another
    ///          changed   called on the session's thread whenever a screen may have something new to show
    ///          observer  outlives the check
    /// Returns  why it cannot begin; a device that cannot be opened ends the session instead, see wait()
    [[nodiscard]] static Result<std::unique_ptr<LiveCheck>>
    begin(db::Ledger ledger, HarpRecord harp, const LiveCheckRequest& request, const DeviceChoice& device,
          std::function<void()> changed = {}, LiveCheckObserver* observer = nullptr);
    ~LiveCheck();

    [[nodiscard]] LiveCheckView view() const;
    [[nodiscard]] const HarpRecord& harp() const;
    [[nodiscard]] bool resumed() const;

    void pause(bool paused);
    /// Takes the last reading back, so that its string is asked for again.
    void take_back();
    /// Leaves this part for the end; there it is given up.
    void leave_part();
    void stop();

    [[nodiscard]] bool ended() const;
    /// Waits for the end of the session and says how it went.
    [[nodiscard]] Result<void> wait();
    /// After the end: whether all was sounded.
    [[nodiscard]] bool complete() const;
    [[nodiscard]] const std::vector<std::string>& recordings() const;
    /// After the end: makes a check of the ledger of what was kept, complete or not, and returns it. Without
    /// it a check that is not complete waits to be gone on with.
    [[nodiscard]] Result<CheckResult> store();

  private:
    class Listener;
    LiveCheck(std::unique_ptr<Listener> listener, const DeviceChoice& device, std::function<void()> changed);
    std::unique_ptr<Listener> listener_;
    LiveSession session_; // the last member: its thread uses the listener
};

} // namespace harpkeep::ui
