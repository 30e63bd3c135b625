// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"

#include <functional>
#include <string>

namespace harpkeep::db {

/// "hpkp": marks a file as a ledger of harpkeep.
inline constexpr std::int64_t application_id = 0x68706B70;

/// What the file is, by its marks alone.
enum class FileKind {
    empty,         ///< no table and no mark: a new file
    current,       ///< a ledger of this version's schema
    older,         ///< a ledger to be brought up to date
    newer,         ///< a ledger of a later version of harpkeep
    other_program, ///< an SQLite file of something else
};

[[nodiscard]] FileKind file_kind(const Database& database);

[[nodiscard]] std::int64_t schema_version(const Database& database);
[[nodiscard]] std::int64_t newest_schema_version();

/// Makes a new file a ledger of this version's schema, in one transaction in which `fill` writes what belongs
/// into a new one. Does nothing when another program has just done so.
void make_schema(const Database& database, const std::function<void()>& fill);

/// Runs the steps that the file lacks, each in a transaction of its own; `before_step` is told the version
/// that the file still has, and can keep a backup. Another program may do the same at the same time.
///
/// Notes  Every new table is guarded so that its rows can be added but neither changed nor deleted.
///        Throws LedgerFailure; the file then stands at the last complete step.
void migrate(const Database& database, const std::function<void(std::int64_t)>& before_step);

/// Runs the steps up to this version only: for a file in which rows of an older ledger are to be read.
///
/// Given  version  1 to newest_schema_version()
void migrate_to(const Database& database, std::int64_t version);

} // namespace harpkeep::db
