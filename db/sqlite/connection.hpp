// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"
#include "db/sqlite/failure_of.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <unordered_map>

namespace harpkeep::db {

// Private to db/sqlite/*.cpp: the only place where SQLiteCpp is seen.

/// Runs `body`; what SQLiteCpp throws leaves as LedgerFailure.
template <class Body>
decltype(auto) translated(const std::string& path, Body&& body)
{
    try {
        return body();
    } catch (const SQLite::Exception& exception) {
        throw LedgerFailure{failure_of(exception, path)};
    }
}

/// Statements of one connection that nobody uses now: reading one harp after the other asks the same
/// questions, and making a question ready takes as long as answering it.
class IdleStatements {
  public:
    /// One that was made ready before, with nothing bound.
    [[nodiscard]] std::optional<SQLite::Statement> take(const std::string& sql);
    /// Keeps it, unless it ended in an error or is of an older generation.
    void give(SQLite::Statement&& statement, int generation) noexcept;
    /// Before the tables change: a new generation of statements begins.
    void forget();
    [[nodiscard]] int generation() const;

  private:
    mutable std::mutex mutex_;
    int generation_ = 0;
    std::unordered_multimap<std::string, SQLite::Statement> idle_;
};

struct Database::Implementation {
    std::string path;
    bool read_only = false;
    std::unique_ptr<SQLite::Database> handle;
    std::shared_ptr<IdleStatements> idle = std::make_shared<IdleStatements>(); ///< goes before the handle
};

struct Statement::Implementation {
    ~Implementation()
    {
        if (const auto statements = idle.lock()) statements->give(std::move(handle), generation);
    }

    SQLite::Statement handle;
    std::string path; ///< for messages
    std::weak_ptr<IdleStatements> idle;
    int generation = 0;
    int next_column = 0;
};

} // namespace harpkeep::db
