// SPDX-License-Identifier: MIT
#include "db/sqlite/transaction.hpp"

#include "base/expects.hpp"
#include "db/sqlite/ledger_failure.hpp"

namespace harpkeep::db {

Transaction::Transaction(const Database& database, Kind kind) : database_(database)
{
    HARPKEEP_EXPECTS(!database.in_transaction());
    database_.execute(kind == Kind::write ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction()
{
    // A full disk or a failing one makes SQLite roll back by itself; then there is nothing left to undo.
    if (!open_ || !database_.in_transaction()) return;
    try {
        database_.execute("ROLLBACK");
    } catch (const LedgerFailure&) {
        // Closing the connection rolls back as well; the failure that led here is the one to report.
        return;
    }
}

void Transaction::commit()
{
    HARPKEEP_EXPECTS(open_);
    database_.execute("COMMIT");
    open_ = false;
}

} // namespace harpkeep::db
