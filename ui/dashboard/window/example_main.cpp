// SPDX-License-Identifier: MIT
#include "ui/dashboard/staged/staged_source.hpp"
#include "ui/dashboard/window/window.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <cstring>

/// The window with the invented school, its live pages staged, for tests and measurements of the window
/// itself.
int main(int argc, char** argv)
{
    using namespace harpkeep::dashboard;
    WindowOptions options;
    options.version = HARPKEEP_VERSION;
    options.report_timing = true;
    StagedSchool school;
    std::string folder;
    for (int i = 1; i < argc; ++i) {
        if (std::strcmp(argv[i], "--close-after") == 0 && i + 1 < argc)
            options.close_after_s = std::strtod(argv[++i], nullptr);
        else if (std::strcmp(argv[i], "--live") == 0)
            school.phase = LivePhase::hearing;
        else if (std::strcmp(argv[i], "--folder") == 0 && i + 1 < argc)
            folder = argv[++i];
        else {
            fmt::print(stderr,
                       "usage: harpkeep_example_window --folder FOLDER [--close-after SECONDS] [--live]\n");
            return 2;
        }
    }
    if (folder.empty()) {
        fmt::print(stderr, "harpkeep_example_window: name a folder for the example with --folder\n");
        return 2;
    }
    auto source = staged_school(folder, school);
    if (source) options.source = *source;
    const auto done =
        source ? run_window(std::move(options)) : harpkeep::Result<void>{harpkeep::failure(source.error())};
    if (!done) fmt::print(stderr, "harpkeep_example_window: {}\n", done.error().message);
    return done ? 0 : 6;
}
