// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "db/sqlite/database.hpp"
#include "records/uuid.hpp"
#include "units/moment.hpp"

#include <random>
#include <string>

namespace harpkeep::db {

/// Who writes into the ledger, and when. The clock is read by the program and passed in.
struct Author {
    Moment now;
    std::string computer; ///< name of the computer, so that a conflict can say where each side came from
};

/// An open ledger: the file that holds harps, strings, checks and all else.
///
/// Notes  Repositories (db/records/*.hpp) are free functions on it. One Ledger belongs to one thread; several
///        programs may have the same file open.
class Ledger {
  public:
    /// Opens the ledger at `path`.
    ///
    /// Given      path    the file; a symbolic link is followed. ":memory:" is a ledger that is gone at the
    /// end
    ///            access  `create` makes a missing file (in a folder that is there)
    ///            now     stamped into a new ledger and into the names of backups
    /// Returns    the ledger, or why not: missing, not a ledger, of a later version, damaged, no permission
    /// Notes      A ledger of an older schema is brought up to date, after a copy was put beside it as
    ///            <name>.schema-<version>.backup.
    [[nodiscard]] static Result<Ledger> open(const std::string& path, Access access, Moment now);

    [[nodiscard]] const Database& database() const { return database_; }
    [[nodiscard]] const std::string& path() const { return database_.path(); }

    /// A new key, greater than every key this object made before, even when the clock was set back.
    [[nodiscard]] Uuid new_id(Moment now);

  private:
    explicit Ledger(Database database) : database_(std::move(database)) {}

    Database database_;
    std::mt19937_64 random_{std::random_device{}()};
    std::int64_t last_id_ms_ = 0;
    std::uint16_t last_id_counter_ = 0;
};

} // namespace harpkeep::db
