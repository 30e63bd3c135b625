// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/ledger_rows.hpp"

#include <iosfwd>

namespace harpkeep::db {

// The JSON form of a whole ledger, described in docs/methods/ledger-format.md. Written and read row by row,
// so that the size of a ledger does not matter. Everything throws LedgerFailure.

void write_ledger_json(const Ledger& ledger, Moment now, std::ostream& stream);

/// Fills the empty file `target` with the rows of a document; its tables get the schema that the document
/// names.
///
/// Returns  what is wrong with it: "table harp, row 3, name: ..."; empty when all was taken
[[nodiscard]] std::vector<std::string> read_ledger_json(std::istream& stream, const Database& target);

} // namespace harpkeep::db
