// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// Copies the whole ledger, as of now, into a new file; others may go on writing. The file appears complete
/// or not at all; one that is there already is refused.
[[nodiscard]] Result<void> back_up(const Ledger& ledger, const std::string& new_path);

/// Where the rolling backups of a ledger lie: <ledger>.backups/2026-03-04.harpkeep.
[[nodiscard]] std::string backup_folder(const std::string& ledger_path);

struct KeptBackup {
    Date day;
    std::string path;
};

/// The rolling backups that there are, youngest first.
[[nodiscard]] std::vector<KeptBackup> rolling_backups(const std::string& ledger_path);

/// Makes the backup of the day unless there is one, and drops those that src/upkeep/backup_rotation.hpp lets
/// go.
///
/// Returns  the path of the backup when one was made
[[nodiscard]] Result<std::optional<std::string>> keep_rolling_backup(const Ledger& ledger, Moment now);

/// Puts a backup in the place of the ledger: it is first copied to a new file, brought up to date and
/// verified; then the ledger steps aside as <ledger>.before-restore-<time> and is kept.
///
/// Returns  the path of the ledger that stepped aside, when there was one; refused while another program has
/// the
///          ledger open
[[nodiscard]] Result<std::optional<std::string>> restore(const std::string& backup_path,
                                                         const std::string& ledger_path, Moment now);

} // namespace harpkeep::db
