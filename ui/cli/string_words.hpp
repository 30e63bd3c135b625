// SPDX-License-Identifier: MIT
#pragma once

#include "reason/observed_string.hpp"
#include "ui/cli/ledger_access.hpp"
#include "ui/support/string_knowledge.hpp"

#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// What the commands about string lives are told.
struct StringWords {
    std::string harp;  ///< only this one; empty: all
    std::string as_of; ///< the day to speak of; empty: today
    std::string grouping = std::string{grouping_name(LifeGrouping::octave_and_material)};
};

/// Adds --harp and --as-of.
void add_string_options(CLI::App& app, StringWords& words);
/// Adds --group: which strings learn from one another.
void add_grouping_option(CLI::App& app, StringWords& words);

/// All strings of the ledger, and those in use that were asked about.
struct AskedStrings {
    ui::StringKnowledge knowledge;
    std::vector<StringInUse> in_use;
};

[[nodiscard]] Result<AskedStrings> ask_strings(const Common& common, const StringWords& words);

/// Days from the day spoken of to a full date that is not before it.
[[nodiscard]] Result<double> days_until(const ui::StringKnowledge& knowledge, const std::string& date);

/// "90d", "6w", "18m" or "1y" in days.
[[nodiscard]] Result<double> span_argument(const std::string& text);

} // namespace harpkeep::cli
