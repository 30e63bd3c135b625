// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/ledger_access.hpp"
#include "ui/cli/output.hpp"
#include "ui/support/harp_knowledge.hpp"

#include <optional>
#include <span>
#include <string>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// What the commands that reason about one harp are told.
struct ReasonWords {
    std::string harp;
    std::string check; ///< handle of the check to judge; empty: the youngest
    std::string as_of; ///< the day to speak of; empty: today
    bool all = false;
};

void add_reason_options(CLI::App& app, ReasonWords& words);

/// The harp with all that reason wants, and the day to speak of.
struct AskedHarp {
    ui::HarpKnowledge knowledge;
    Date today;
    int day = 0; ///< today in days since 1970-01-01
};

[[nodiscard]] Result<AskedHarp> ask(const Common& common, const ReasonWords& words);
/// The same, and there must be a check.
[[nodiscard]] Result<AskedHarp> ask_with_check(const Common& common, const ReasonWords& words);

/// {"harp", "check_id", "taken"} of what was judged.
[[nodiscard]] Json subject_json(const AskedHarp& asked);
/// "Heron, check of 2026-03-04 18:05".
[[nodiscard]] std::string subject_line(const AskedHarp& asked);

/// Each sentence on a line of its own.
void print_sentences(std::span<const std::string> sentences);

} // namespace harpkeep::cli
