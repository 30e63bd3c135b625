// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace harpkeep::db {

/// What a row must be like, for a person, from SQLite's message about the constraint that it breaks.
///
/// Given    message  as "CHECK constraint failed: place BETWEEN 0 AND 62"
/// Returns  "place must lie from 0 to 62"; the message itself when it is none of SQLite's (a trigger's words)
/// Notes    Columns are named as in the schema. The rules of one column are told by their form, those that
/// tie
///          several together one by one; tests/db/sqlite/rule_in_words_test.cpp asks for all in the schema.
[[nodiscard]] std::string rule_in_words(std::string_view message);

/// What is said of a rule that has no words of its own.
inline constexpr std::string_view unknown_rule =
    "the values do not fit together; see docs/methods/ledger-format.md";

} // namespace harpkeep::db
