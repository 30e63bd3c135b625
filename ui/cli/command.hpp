// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <functional>
#include <string>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// What every command may read: the options before or after the command's own.
struct Common {
    std::string ledger_path; ///< empty: the default ledger
    bool json = false;
};

/// Work of the command that was chosen on the line; set by the callback of its subcommand, run by main.
using Work = std::function<Result<void>()>;

/// Each command is one file command_<name>.cpp that offers one function of this shape. It adds its subcommand
/// to `app` and, in the subcommand's callback, puts its work into `work`. ui/cli/commands.hpp lists them all.
using AddCommand = void (*)(CLI::App& app, Common& common, Work& work);

/// Adds --ledger and --json to a subcommand.
void add_common_options(CLI::App& subcommand, Common& common);

} // namespace harpkeep::cli
