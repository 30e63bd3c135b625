// SPDX-License-Identifier: MIT
#include "ui/cli/commands.hpp"
#include "ui/cli/output.hpp"
#include "ui/support/clock.hpp"
#include "ui/support/demo_school.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>

namespace harpkeep::cli {

namespace {

Result<void> demo(const Common& common, const std::string& folder)
{
    const auto made = ui::make_demo_school(folder, ui::author());
    if (!made) return failure(made.error());
    if (common.json) {
        print_json({{"ledger", made->ledger_path}, {"recording", made->recording_path}, {"harp", "Heron"}});
        return {};
    }
    print_line("The invented Larkmoor Community Music School, with a synthetic recording of its harp Heron:");
    print_line(fmt::format("  {}\n  {}", made->ledger_path, made->recording_path));
    print_line(fmt::format("Try: harpkeep check {} --harp Heron --ledger {}", made->recording_path,
                           made->ledger_path));
    return {};
}

} // namespace

void add_command_demo(CLI::App& app, Common& common, Work& work)
{
    auto folder = std::make_shared<std::string>();
    auto* subcommand =
        app.add_subcommand("demo", "make the ledger of an invented music school and a recording to try");
    subcommand->add_option("folder", *folder, "folder for both")->required();
    subcommand->add_flag("--json", common.json, "print JSON for programs");
    subcommand->callback(
        [folder, &common, &work] { work = [folder, &common] { return demo(common, *folder); }; });
}

} // namespace harpkeep::cli
