// SPDX-License-Identifier: MIT
#include "ui/cli/commands.hpp"

#include "db/ledger/default_path.hpp"
#include "ui/dashboard/ledger/example_ledger.hpp"
#include "ui/dashboard/window/window.hpp"
#include "ui/support/clock.hpp"
#include "ui/support/demo_ledger.hpp"

#include <CLI/CLI.hpp>

#include <filesystem>
#include <memory>

namespace harpkeep::cli {

Result<void> open_window(const std::string& ledger_path, bool example)
{
    dashboard::WindowOptions options;
    options.version = HARPKEEP_VERSION;
    options.open_ledger = [](const std::string& path) {
        return dashboard::LedgerSource::open(path, ui::author);
    };
    const auto usual_path = db::default_ledger_path();
    if (usual_path)
        options.open_example = [folder = std::filesystem::path{*usual_path}.parent_path() /
                                         "example"](dashboard::JobContext& context) {
            return dashboard::open_example_ledger(folder.string(), ui::author, ui::usual_demo_harps, context);
        };
    if (!usual_path && (example || ledger_path.empty())) return failure(usual_path.error());
    dashboard::JobContext context;
    auto source = example               ? options.open_example(context)
                  : ledger_path.empty() ? options.open_ledger(*usual_path)
                                        : options.open_ledger(ledger_path);
    if (!source) return failure(source.error());
    options.source = *source;
    return dashboard::run_window(std::move(options));
}

void add_window_command(CLI::App& app, Common& common, Work& work)
{
    auto* window = app.add_subcommand("window", "open the window (also without any command)");
    window->add_option("--ledger", common.ledger_path,
                       "ledger file (default: harpkeep/ledger.harpkeep in the user's data folder)");
    const auto example = std::make_shared<bool>(false);
    window->add_flag("--example", *example, "show the invented example school, in a ledger of its own");
    window->callback([&common, &work, example] {
        work = [&common, example] { return open_window(common.ledger_path, *example); };
    });
}

} // namespace harpkeep::cli
