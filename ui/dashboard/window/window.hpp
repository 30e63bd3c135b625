// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "ui/dashboard/source.hpp"

#include <functional>
#include <memory>
#include <string>

namespace harpkeep::dashboard {

struct WindowOptions {
    std::shared_ptr<Source> source;
    std::function<Result<std::shared_ptr<Source>>(const std::string& path)> open_ledger; ///< may be empty
    std::function<Result<std::shared_ptr<Source>>(JobContext&)> open_example;            ///< may be empty
    std::string version;
    int width = 1280; ///< units of the window system
    int height = 800;
    double close_after_s = 0.0; ///< for tests: closes by itself; 0 never
    bool report_timing = false; ///< prints the time to the first frame and frames drawn, for tests
};

/// Opens the window and runs it until it is closed.
///
/// Returns  nothing, or why no window can be shown (no display, no OpenGL 3.2, no font) and what to do
/// instead Notes    draws only when something happened: three frames for each event, for Dear ImGui lays out
/// by what the
///          frame before held; a live session draws at the rate of the display
[[nodiscard]] Result<void> run_window(WindowOptions options);

} // namespace harpkeep::dashboard
