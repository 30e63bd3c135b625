// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/command.hpp"

namespace harpkeep::cli {

void add_command_harp(CLI::App& app, Common& common, Work& work);
void add_command_demo(CLI::App& app, Common& common, Work& work);
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
void add_command_room(CLI::App& app, Common& common, Work& work);
void add_command_loan(CLI::App& app, Common& common, Work& work);
void add_command_plan(CLI::App& app, Common& common, Work& work);
void add_command_string(CLI::App& app, Common& common, Work& work);
void add_command_visit(CLI::App& app, Common& common, Work& work);
void add_command_climate(CLI::App& app, Common& common, Work& work);
void add_command_spare(CLI::App& app, Common& common, Work& work);
/// The verb `order` of the noun `spare`.
void add_spare_order(CLI::App& spare, Common& common, Work& work);
void add_command_tension(CLI::App& app, Common& common, Work& work);
void add_command_material(CLI::App& app, Common& common, Work& work);
void add_command_life(CLI::App& app, Common& common, Work& work);
void add_command_risk(CLI::App& app, Common& common, Work& work);
void add_command_replace(CLI::App& app, Common& common, Work& work);
void add_command_note(CLI::App& app, Common& common, Work& work);
void add_command_reminder(CLI::App& app, Common& common, Work& work);
void add_command_due(CLI::App& app, Common& common, Work& work);
void add_command_history(CLI::App& app, Common& common, Work& work);
void add_command_show(CLI::App& app, Common& common, Work& work);
void add_command_correct(CLI::App& app, Common& common, Work& work);
void add_command_void(CLI::App& app, Common& common, Work& work);
void add_command_undo(CLI::App& app, Common& common, Work& work);
void add_command_report(CLI::App& app, Common& common, Work& work);
void add_command_pedals(CLI::App& app, Common& common, Work& work);
void add_command_csv(CLI::App& app, Common& common, Work& work);
void add_command_ledger(CLI::App& app, Common& common, Work& work);
void add_command_listen(CLI::App& app, Common& common, Work& work);
void add_command_tune(CLI::App& app, Common& common, Work& work);
void add_command_completion(CLI::App& app, Common& common, Work& work);
void add_command_manual(CLI::App& app, Common& common, Work& work);

void add_window_command(CLI::App& app, Common& common, Work& work);

/// Opens the window on a ledger (empty: the default one) or on the example; returns when it is closed.
[[nodiscard]] Result<void> open_window(const std::string& ledger_path, bool example);

/// Every command, in the order of the help text.
inline constexpr AddCommand all_commands[] = {
    // One a line, which the formatter would undo.
    // clang-format off
    add_command_harp,
    add_command_check,
    add_command_pluck,
    add_command_listen,
    add_command_tune,
    add_command_verdict,
    add_command_cause,
    add_command_drift,
    add_command_compare,
    add_command_tolerance,
    add_command_tune_around,
    add_command_settings,
    add_command_enharmonics,
    add_command_temperament,
    add_command_room,
    add_command_loan,
    add_command_plan,
    add_command_string,
    add_command_visit,
    add_command_climate,
    add_command_spare,
    add_command_tension,
    add_command_material,
    add_command_life,
    add_command_risk,
    add_command_replace,
    add_command_note,
    add_command_reminder,
    add_command_due,
    add_command_history,
    add_command_show,
    add_command_correct,
    add_command_void,
    add_command_undo,
    add_command_report,
    add_command_pedals,
    add_command_completion,
    add_command_manual,
    add_window_command,
    add_command_csv,
    add_command_ledger,
    add_command_demo,
    // clang-format on
};

} // namespace harpkeep::cli
