// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <string>

namespace harpkeep::cli {

/// One line on the terminal that tells how far long work is; silent when standard error is no terminal.
class ProgressLine {
  public:
    explicit ProgressLine(std::string what);
    [[nodiscard]] std::function<bool(double share)> reporter();
    /// Takes the line away, before anything else is printed.
    void clear();

  private:
    std::string what_;
    bool on_terminal_;
    int shown_percent_ = -1;
};

} // namespace harpkeep::cli
