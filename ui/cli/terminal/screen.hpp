// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/terminal/canvas.hpp"

#include <memory>
#include <optional>

namespace harpkeep::cli {

/// The terminal taken over as one full screen, given back as it was when this object goes or the program is
/// interrupted.
class Screen {
  public:
    /// Takes the terminal over; nothing when the output is no terminal.
    [[nodiscard]] static std::unique_ptr<Screen> open();
    Screen(const Screen&) = delete;
    Screen& operator=(const Screen&) = delete;
    ~Screen();

    /// An empty page of the size that the terminal has now.
    [[nodiscard]] Canvas blank() const;
    /// Shows a page; only what changed is sent.
    void show(const Canvas& page);
    /// A key that was pressed since the last call: its character, lower case; Escape is 27, Enter is 10.
    [[nodiscard]] std::optional<char32_t> key();

  private:
    Screen() = default;
    Canvas shown_{0, 0};
};

/// Whether the user asked the program to end (Ctrl-C or a termination signal); installed by the first call.
[[nodiscard]] bool end_was_asked_for();

} // namespace harpkeep::cli
