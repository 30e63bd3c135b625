// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"
#include "db/sqlite/failure_of.hpp"
#include "db/sqlite/ledger_failure.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <memory>

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

struct Database::Implementation {
    std::string path;
    bool read_only = false;
    std::unique_ptr<SQLite::Database> handle;
};

struct Statement::Implementation {
    SQLite::Statement handle;
    std::string path; ///< for messages
    int next_column = 0;
};

} // namespace harpkeep::db
