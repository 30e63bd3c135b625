// SPDX-License-Identifier: MIT
#pragma once

#include "live/tuning_aid.hpp"
#include "ui/support/live_session.hpp"

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace harpkeep::ui {

/// What a tuning session is told.
struct LiveTuningRequest {
    HarpLayout layout;
    TuningRequest tuning;
    Cents tolerance{1.0};
    bool a4_from_tone = false; ///< begin by listening to a reference tone
};

/// How the tuning stands, for a screen.
struct LiveTuningView {
    std::optional<OpenDevice> device; ///< nothing while it is being opened
    std::string trouble;              ///< of the microphone; empty when all is well
    bool waiting_for_tone = false;
    Hertz a4{440.0};
    TuningView tuning;                                        ///< its strings are those below
    std::shared_ptr<const std::vector<StringTuning>> strings; ///< lowest first
};

/// Who is told at once what a tuning session does, on its thread.
class LiveTuningObserver {
  public:
    virtual ~LiveTuningObserver() = default;
    virtual void opened(const OpenDevice&) {}
    virtual void trouble(const std::string&) {}
    virtual void gap(const StreamGap&) {}
    virtual void took_a4(Hertz) {}
    /// About ten times a second while a string sounds.
    virtual void pitch(const TuningView&) {}
    virtual void noted(const TuningOutcome&, const TuningView&) {}
};

/// The tuning aid listening to a microphone: the same for the terminal and the window.
///
/// Notes  All functions but begin() may be called from any thread and never wait.
class LiveTuning {
  public:
    /// Listens from now on.
    ///
    /// Given    changed   called on the session's thread whenever a screen may have something new to show
    ///          observer  outlives the session
    /// Returns  which part of the request cannot be; a device that cannot be opened ends the session, see
    /// wait()
    [[nodiscard]] static Result<std::unique_ptr<LiveTuning>> begin(const LiveTuningRequest& request,
                                                                   const DeviceChoice& device,
                                                                   std::function<void()> changed = {},
                                                                   LiveTuningObserver* observer = nullptr);
    ~LiveTuning();

    [[nodiscard]] LiveTuningView view() const;

    void begin_next_pass();
    /// Keeps to one string; nothing: back to the nearest.
    void choose(std::optional<StringPlace> place);
    /// Keeps to the string that lies `step` strings above the one shown.
    void choose_neighbour(int step);
    /// The next A that sounds becomes A4.
    void take_a4_from_tone();
    void stop();

    [[nodiscard]] bool ended() const;
    /// Waits for the end of the session and says how it went.
    [[nodiscard]] Result<void> wait();

  private:
    class Listener;
    LiveTuning(std::unique_ptr<Listener> listener, const DeviceChoice& device, std::function<void()> changed);
    std::unique_ptr<Listener> listener_;
    LiveSession session_; // the last member: its thread uses the listener
};

} // namespace harpkeep::ui
