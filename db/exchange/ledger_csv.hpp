// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/ledger_rows.hpp"

namespace harpkeep::db {

// The CSV form of a whole ledger: a folder with one file for each table, which the JSON form has as one list
// each. Everything throws LedgerFailure.

/// Given  folder  is there and empty
void write_ledger_csv(const Ledger& ledger, const std::string& folder);

/// Fills the empty file `target` with the rows of the files; its tables get the schema that
/// schema_version.csv names. A table whose file is missing stays empty.
///
/// Returns  what is wrong with them: "harp.csv, line 3, column 17: ..."; empty when all was taken
[[nodiscard]] std::vector<std::string> read_ledger_csv(const std::string& folder, const Database& target);

} // namespace harpkeep::db
