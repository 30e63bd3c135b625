// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// Two facts of two computers that cannot both hold. Both are kept; which one counts for now is told, and
/// what to do. A conflict is over as soon as one side is voided or corrected.
struct Conflict {
    std::string kind;         ///< "two statements", "two harps of one name", ...
    std::vector<Uuid> things; ///< what is concerned
    std::string words;        ///< what contradicts what, and how to settle it
};

/// All conflicts of a ledger, found from what it holds; none in a ledger that one computer writes.
[[nodiscard]] Result<std::vector<Conflict>> conflicts(const Ledger& ledger);

/// The same, for use in a transaction that is open; throws LedgerFailure.
[[nodiscard]] std::vector<Conflict> find_conflicts(const Database& database);

} // namespace harpkeep::db
