// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"

namespace harpkeep::cli {

void add_command_harp(CLI::App& app, Common& common, Work& work);
void add_command_check(CLI::App& app, Common& common, Work& work);
void add_command_pluck(CLI::App& app, Common& common, Work& work);
void add_command_verdict(CLI::App& app, Common& common, Work& work);
void add_command_cause(CLI::App& app, Common& common, Work& work);
void add_command_drift(CLI::App& app, Common& common, Work& work);
void add_command_compare(CLI::App& app, Common& common, Work& work);
void add_command_tolerance(CLI::App& app, Common& common, Work& work);
void add_command_tune_around(CLI::App& app, Common& common, Work& work);
void add_command_settings(CLI::App& app, Common& common, Work& work);
void add_command_enharmonics(CLI::App& app, Common& common, Work& work);
void add_command_temperament(CLI::App& app, Common& common, Work& work);
void add_listen(CLI::App& app, Common& common, Work& work);

/// Every command, in the order of the help text.
inline constexpr AddCommand all_commands[] = {
    add_command_harp,
    add_command_check,
    add_command_pluck,
    add_listen,
    add_command_harp,        add_command_verdict,  add_command_cause,
    add_command_drift,       add_command_compare,  add_command_tolerance,
    add_command_tune_around, add_command_settings, add_command_enharmonics,
    add_command_temperament, add_listen,
};

} // namespace harpkeep::cli
