// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"

#include <string>
#include <vector>

namespace harpkeep::db {

struct VerifyOptions {
    bool look_at_recordings = true; ///< hash each recording of each check, where its file still is
};

/// What a thorough look at a ledger found.
struct VerifyReport {
    std::vector<std::string> problems; ///< the ledger is damaged
    std::vector<std::string> notices;  ///< conflicts, recordings that are gone: worth knowing, no damage
    std::int64_t facts = 0;
    std::int64_t recordings_checked = 0;

    [[nodiscard]] bool is_sound() const { return problems.empty(); }
};

/// Looks through the whole ledger: SQLite's own check of the file, foreign keys, the ledger's rules (every
/// thing has its facts and every fact its content, corrections form no circle, keys point to what they
/// should, names agree with their keys), the hashes of attachments and of recordings.
[[nodiscard]] Result<VerifyReport> verify(const Ledger& ledger, const VerifyOptions& options = {});

/// Counts for `ledger info`.
struct LedgerInfo {
    Uuid id;
    Moment created;
    std::int64_t schema_version = 0;
    std::int64_t size_bytes = 0;
    std::vector<std::pair<std::string, std::int64_t>> things; ///< kind and how many hold
    std::int64_t readings = 0;
    std::int64_t actions = 0;
};

[[nodiscard]] Result<LedgerInfo> info(const Ledger& ledger);

} // namespace harpkeep::db
