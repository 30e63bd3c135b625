// SPDX-License-Identifier: MIT
#include "ui/cli/progress_line.hpp"

#include <cmath>
#include <fmt/format.h>
#include <unistd.h>

namespace harpkeep::cli {

ProgressLine::ProgressLine(std::string what)
    : what_(std::move(what)), on_terminal_(isatty(STDERR_FILENO) == 1)
{
}

std::function<bool(double share)> ProgressLine::reporter()
{
    return [this](double share) {
        const int percent = static_cast<int>(std::lround(100.0 * share));
        if (on_terminal_ && percent != shown_percent_) fmt::print(stderr, "\r{}: {} %", what_, percent);
        shown_percent_ = percent;
        return true;
    };
}

void ProgressLine::clear()
{
    if (on_terminal_ && shown_percent_ >= 0) fmt::print(stderr, "\r\033[K");
    shown_percent_ = -1;
}

} // namespace harpkeep::cli
