// SPDX-License-Identifier: MIT
#include "db/ledger/verify.hpp"
#include "db/records/notes.hpp"
#include "db/sqlite/transaction.hpp"
#include "tests/support/child_process.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("a ledger that another program never lets go of: writing gives up in the end, reading goes on",
          "[db][faults]")
{
    const TemporaryFolder folder;
    {
        auto ledger = db::Ledger::open(folder / "ledger", db::Access::create, an_evening).value();
        REQUIRE(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "before"}));
    }
    NumberPipe told;
    ChildProcess holder{[&] {
        const db::Database database{folder / "ledger", db::Access::write};
        const db::Transaction transaction{database, db::Transaction::Kind::write};
        told.tell(1);
        pause();
        return 0;
    }};
    REQUIRE(told.next() == 1);
    auto ledger = db::Ledger::open(folder / "ledger", db::Access::write, an_evening).value();
    CHECK(db::notes(ledger)->size() == 1);
    const auto refused = db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "meanwhile"});
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::unavailable);
    CHECK(refused.error().message.find("another program is writing to it") != std::string::npos);
    holder.kill();
    (void)holder.wait();
    CHECK(db::add_note(ledger, that_evening(), {.noted_on = {2026}, .words = "after"}));
    CHECK(db::notes(ledger)->size() == 2);
    CHECK(db::verify(ledger)->is_sound());
}
