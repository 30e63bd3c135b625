// SPDX-License-Identifier: MIT
// Traps of SQLite's C++ wrapper that were measured: rolling a savepoint back leaves its transaction open, so
// that a later insert is lost; a backup step answers BUSY without an exception while its own connection is
// writing.
#include "db/ledger/backup.hpp"
#include "db/records/notes.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/transaction.hpp"
#include "tests/support/child_process.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

#include <cstdio>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("what is written after something was rolled back is there when the file is opened again",
          "[db][faults]")
{
    const TemporaryFolder folder;
    {
        auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
        const Note note{.noted_on = {2026}, .words = "kept"};
        const Note refused{
            .place = *place_from_harp_name("3A"), .noted_on = {2026}, .words = "a place of no harp"};
        REQUIRE_FALSE(db::add_note(ledger, that_evening(), refused));
        CHECK_FALSE(ledger.database().in_transaction());
        REQUIRE(db::add_note(ledger, that_evening(), note));
        CHECK_FALSE(ledger.database().in_transaction());
    }
    const auto again = db::Ledger::open(folder / "ledger", db::Access::read, an_evening).value();
    CHECK(db::notes(again)->size() == 1);
}

TEST_CASE("a transaction in a transaction is a bug that stops the program, not a savepoint", "[db][faults]")
{
    const TemporaryFolder folder;
    ChildProcess nested{[&] {
        (void)std::freopen("/dev/null", "w", stderr);
        const db::Database database{folder / "a.db", db::Access::create};
        const db::Transaction outer{database, db::Transaction::Kind::write};
        const db::Transaction inner{database, db::Transaction::Kind::write};
        return 0;
    }};
    CHECK(nested.wait() == -1 - SIGABRT);
}

TEST_CASE("a backup while another program is writing holds what was committed, and only that", "[db][faults]")
{
    const TemporaryFolder folder;
    auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
    REQUIRE(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "committed"}));
    NumberPipe told;
    ChildProcess writer{[&] {
        const db::Database database{folder / "ledger", db::Access::write};
        const db::Transaction transaction{database, db::Transaction::Kind::write};
        database.execute("INSERT INTO room SELECT fact_no, 'half done', 'half done', '' FROM fact LIMIT 1");
        told.tell(1);
        pause();
        return 0;
    }};
    REQUIRE(told.next() == 1);
    REQUIRE(db::back_up(ledger, folder / "backup"));
    const auto copy = db::Ledger::open(folder / "backup", db::Access::read, an_evening).value();
    CHECK(db::notes(copy)->size() == 1);
    CHECK(copy.database().integer_of("SELECT count(*) FROM room") == 0);
}

TEST_CASE("a backup in the middle of one's own writing is a bug that stops the program", "[db][faults]")
{
    const TemporaryFolder folder;
    ChildProcess writer{[&] {
        (void)std::freopen("/dev/null", "w", stderr);
        const db::Database database{folder / "a.db", db::Access::create};
        const db::Transaction transaction{database, db::Transaction::Kind::write};
        database.copy_to(folder / "b.db");
        return 0;
    }};
    CHECK(writer.wait() == -1 - SIGABRT);
}

TEST_CASE("a backup over a file that cannot be made says so, and leaves nothing behind", "[db][faults]")
{
    const TemporaryFolder folder;
    auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
    const auto refused = db::back_up(ledger, folder / "no/such/folder/backup");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::unavailable);
}
