// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/conflicts.hpp"
#include "db/ledger/ledger.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

/// What came from the other ledger.
struct MergeReport {
    std::int64_t new_actions = 0;
    std::int64_t new_things = 0;
    std::int64_t new_facts = 0;
    std::vector<Conflict> conflicts; ///< all that the ledger has now, old ones too
};

/// Takes over all facts of another ledger that are not here yet; the other file is not changed.
///
/// Notes  A ledger is a set of facts, and merging is their union: it does not matter in which order ledgers
/// are
///        merged, how often, or what their clocks showed (tests/db/ledger/merge_test.cpp). What contradicts
///        itself afterwards is kept on both sides and listed as a conflict.
///        An older ledger is merged through a copy brought up to date; a newer one is refused.
[[nodiscard]] Result<MergeReport> merge_from(Ledger& ledger, const std::string& other_path, Moment now);

} // namespace harpkeep::db
