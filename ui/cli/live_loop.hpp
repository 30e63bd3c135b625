// SPDX-License-Identifier: MIT
#pragma once

#include "live/pluck_listener.hpp"
#include "ui/cli/live_device.hpp"
#include "ui/cli/terminal/screen.hpp"

#include <functional>
#include <string>

namespace harpkeep::cli {

/// What a live command does with what it hears. One thread calls all of it.
class LiveWork {
  public:
    virtual ~LiveWork() = default;

    virtual Result<void> hear(const PluckEvent& event) = 0;
    /// The raw samples, before the plucks that they hold are heard.
    virtual Result<void> sound(std::span<const float> samples, std::uint64_t first_frame) = 0;
    /// The microphone is in trouble, or (empty) well again.
    virtual void trouble(const std::string& text) = 0;
    /// A key on a terminal, or the first letter of a line of input for programs.
    virtual Result<void> key(char32_t key) = 0;
    virtual void draw(Canvas& page) = 0;
    [[nodiscard]] virtual bool finished() const = 0;
};

/// Listens until the work is finished or the user ends it. On a terminal the page is drawn ten times a
/// second; with `json`, or without a terminal, nothing is drawn.
[[nodiscard]] Result<void> run_live(Microphone& microphone, PluckListener& listener, LiveWork& work,
                                    bool json);

} // namespace harpkeep::cli
