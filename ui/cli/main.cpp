// SPDX-License-Identifier: MIT
#include "ui/cli/arguments.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/exit_codes.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <array>
#include <exception>

namespace harpkeep::cli {

void add_common_options(CLI::App& subcommand, Common& common)
{
    subcommand.add_option("--ledger", common.ledger_path,
                          "ledger file (default: harpkeep/ledger.harpkeep in the user's data folder)");
    subcommand.add_flag("--json", common.json, "print JSON for programs");
}

namespace {

int run(int argc, char** argv)
{
    CLI::App app{"Regulation, strings and history of harps, measured and kept.", "harpkeep"};
    app.set_version_flag("--version", "harpkeep " HARPKEEP_VERSION);
    app.footer(std::string{exit_code_help});
    app.require_subcommand(0, 1);

    Common common;
    Work work;
    add_common_options(app, common);
    for (const AddCommand add : all_commands) add(app, common, work);
    refuse_what_is_no_number(app);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        const int code = app.exit(error);
        return code == 0 ? 0 : static_cast<int>(ExitCode::usage);
    }
    if (!work && argc == 1) work = [] { return open_window({}, false); }; // no command: the window
    if (!work) return static_cast<int>(ExitCode::usage);
    const auto result = work();
    if (result) return static_cast<int>(ExitCode::done);
    fmt::print(stderr, "harpkeep: {}\n", result.error().message);
    return static_cast<int>(exit_code_for(result.error().code));
}

} // namespace

} // namespace harpkeep::cli

int main(int argc, char** argv)
{
    try {
        return harpkeep::cli::run(argc, argv);
    } catch (const std::exception& error) {
        fmt::print(stderr, "harpkeep: unexpected error: {}\n", error.what());
        return static_cast<int>(harpkeep::cli::ExitCode::internal);
    }
}
