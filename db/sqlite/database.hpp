// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/statement.hpp"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

namespace harpkeep::db {

enum class Access {
    read,   ///< the file must be there; nothing is written
    write,  ///< the file must be there
    create, ///< a missing file is made
};

/// How long a statement waits for another program that is writing.
inline constexpr int busy_timeout_ms = 10'000;

/// One connection to one SQLite file: foreign keys on, write-ahead log, full sync at each commit.
///
/// Notes  Every function throws LedgerFailure when SQLite refuses. A file that can only be read, in a folder
///        that can only be read, is opened as immutable.
class Database {
  public:
    struct Implementation;

    /// Opens the file as it is; nothing is known about what it holds.
    Database(const std::string& path, Access access);
    Database(Database&&) noexcept;
    Database& operator=(Database&&) noexcept;
    ~Database();

    [[nodiscard]] Statement prepare(std::string_view sql) const;
    /// Runs one or more statements without parameters.
    void execute(std::string_view sql) const;
    /// The only value of the only row of a query.
    [[nodiscard]] std::int64_t integer_of(std::string_view sql) const;
    [[nodiscard]] std::string text_of(std::string_view sql) const;

    [[nodiscard]] std::int64_t last_row_number() const;
    [[nodiscard]] std::int64_t changed_rows() const;
    [[nodiscard]] bool in_transaction() const;
    [[nodiscard]] bool is_read_only() const;
    [[nodiscard]] const std::string& path() const;

    /// Makes the tables of another file readable as <name>.<table>; nothing is written into it.
    void attach(const std::string& path, const std::string& name) const;
    void detach(const std::string& name) const;

    /// Copies the whole database, as of now, into a new file by SQLite's online backup; the file must not be
    /// there. Fails unless SQLite says that the copy is complete.
    void copy_to(const std::string& new_path) const;

  private:
    std::unique_ptr<Implementation> implementation_;
};

} // namespace harpkeep::db
