// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example_source.hpp"
#include "ui/dashboard/window/window.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <cstring>

/// The window with the built-in example, for tests and measurements of the window itself.
int main(int argc, char** argv)
{
    using namespace harpkeep::dashboard;
    WindowOptions options;
    options.version = HARPKEEP_VERSION;
    options.report_timing = true;
    ExampleSource::Start start;
    for (int i = 1; i < argc; ++i) {
        if (std::strcmp(argv[i], "--close-after") == 0 && i + 1 < argc)
            options.close_after_s = std::strtod(argv[++i], nullptr);
        else if (std::strcmp(argv[i], "--live") == 0)
            start.guided = LivePhase::hearing;
        else {
            fmt::print(stderr, "usage: harpkeep_example_window [--close-after SECONDS] [--live]\n");
            return 2;
        }
    }
    options.source = std::make_shared<ExampleSource>(start);
    const auto done = run_window(std::move(options));
    if (!done) fmt::print(stderr, "harpkeep_example_window: {}\n", done.error().message);
    return done ? 0 : 6;
}
