// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/merge.hpp"

namespace harpkeep::db {

enum class LedgerForm {
    json, ///< one document
    csv,  ///< a folder with a file for each table
};

/// Writes the whole ledger, with all that was ever stated, in an open form (docs/methods/ledger-format.md).
/// The file or folder appears complete or not at all; one that is there already is refused.
[[nodiscard]] Result<void> export_ledger(const Ledger& ledger, LedgerForm form, const std::string& new_path,
                                         Moment now);

/// Takes over what an exported document or folder holds and this ledger does not, as merge_from() does.
///
/// Returns  what came over; unusable_input with every bad cell when there is one, and then nothing was taken
[[nodiscard]] Result<MergeReport> import_ledger(Ledger& ledger, const std::string& path, Moment now);

} // namespace harpkeep::db
