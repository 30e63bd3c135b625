// SPDX-License-Identifier: MIT
#include "ui/cli/commands.hpp"

#include "db/ledger/default_path.hpp"
#include "ui/dashboard/example/example_source.hpp"
#include "ui/dashboard/ledger/ledger_source.hpp"
#include "ui/dashboard/window/window.hpp"
#include "ui/support/clock.hpp"

#include <CLI/CLI.hpp>

#include <memory>

namespace harpkeep::cli {

Result<void> open_window(const std::string& ledger_path, bool example)
{
    dashboard::WindowOptions options;
    options.version = HARPKEEP_VERSION;
    options.open_ledger = [](const std::string& path) {
        return dashboard::LedgerSource::open(path, ui::author);
    };
    if (example)
        options.source = std::make_shared<dashboard::ExampleSource>();
    else {
        std::string path = ledger_path;
        if (path.empty()) {
            auto found = db::default_ledger_path();
            if (!found) return failure(found.error());
            path = *found;
        }
        auto source = options.open_ledger(path);
        if (!source) return failure(source.error());
        options.source = *source;
    }
    return dashboard::run_window(std::move(options));
}

void add_window_command(CLI::App& app, Common& common, Work& work)
{
    auto* window = app.add_subcommand("window", "open the window (also without any command)");
    window->add_option("--ledger", common.ledger_path,
                       "ledger file (default: harpkeep/ledger.harpkeep in the user's data folder)");
    const auto example = std::make_shared<bool>(false);
    window->add_flag("--example", *example, "show the invented example school; nothing is written");
    window->callback([&common, &work, example] {
        work = [&common, example] { return open_window(common.ledger_path, *example); };
    });
}

} // namespace harpkeep::cli
