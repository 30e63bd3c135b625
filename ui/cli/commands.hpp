// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"

namespace harpkeep::cli {

void add_command_harp(CLI::App& app, Common& common, Work& work);
void add_command_check(CLI::App& app, Common& common, Work& work);
void add_command_pluck(CLI::App& app, Common& common, Work& work);
void add_listen(CLI::App& app, Common& common, Work& work);

/// Every command, in the order of the help text.
inline constexpr AddCommand all_commands[] = {
    add_command_harp,
    add_command_check,
    add_command_pluck,
    add_listen,
};

} // namespace harpkeep::cli
