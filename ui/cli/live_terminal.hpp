// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/terminal/canvas.hpp"

#include <functional>

namespace harpkeep::cli {

/// What a terminal does for a live session that runs on a thread of its own.
struct LiveTerminal {
    /// A key, or for programs the first letter of a line of input.
    std::function<void(char32_t key)> key;
    std::function<void(Canvas& page)> draw;
    std::function<bool()> ended;
    /// The user asked the program to end (Ctrl-C, a termination signal).
    std::function<void()> stop;
};

/// Takes keys until the session has ended. On a terminal the page is drawn ten times a second; with `json`,
/// or without a terminal, nothing is drawn.
void attend(const LiveTerminal& terminal, bool json);

} // namespace harpkeep::cli
