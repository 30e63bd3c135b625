// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// One thing that somebody did.
struct ActionRecord {
    Uuid id;
    Moment recorded;
    std::string computer;
    std::string what;
    bool undone = false;
    std::optional<Uuid> undoes;
    /// Keys and kinds of the things it stated, corrected or voided.
    std::vector<std::pair<Uuid, std::string>> things;
};

/// The youngest actions first, at most `limit` of them.
[[nodiscard]] Result<std::vector<ActionRecord>> actions(const Ledger& ledger, int limit);

/// Takes back the youngest action of this computer that is not undone: what it added becomes void, what it
/// corrected or voided holds again as before. Nothing is deleted. Called again, it goes one further back.
///
/// Returns  the action; refused when there is none, or when another computer built on it since
[[nodiscard]] Result<ActionRecord> undo_last(Ledger& ledger, const Author& author);

/// One statement about a thing, as recorded: what the ledger said of it at any time.
struct FactRecord {
    Uuid id;
    std::string effect; ///< "state", "void" or "restore"
    std::string reason;
    Moment recorded;
    std::string computer;
    std::string what;
    bool holds = false; ///< it is the one that counts now
};

/// Everything that was ever stated about a thing, oldest first.
[[nodiscard]] Result<std::vector<FactRecord>> facts_of(const Ledger& ledger, const Uuid& thing_id);

} // namespace harpkeep::db
