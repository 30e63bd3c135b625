// SPDX-License-Identifier: MIT
#pragma once

#include "records/string_record.hpp"
#include "ui/cli/ledger_access.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::cli {

/// "steel wound with copper".
[[nodiscard]] std::string material_words(const StringMake& make);
/// Without a unit, for a column whose heading has it; empty for nothing.
[[nodiscard]] std::string millimetres_text(const std::optional<Millimetres>& length);
[[nodiscard]] std::string grams_per_metre_text(const std::optional<KilogramsPerMetre>& density);
/// "2025-03", "since about 2024 or longer"
[[nodiscard]] std::string put_on_words(const MountedString& string);

void print_strings(const std::vector<StringLife>& lives, const Names& names, bool with_harp);

} // namespace harpkeep::cli
