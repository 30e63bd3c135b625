// SPDX-License-Identifier: MIT
#include "db/ledger/ledger.hpp"

#include "db/ledger/action.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <set>

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("Ledger::open: makes a new file with the marks of a ledger", "[db]")
{
    const TemporaryFolder folder;
    const auto ledger = db::Ledger::open(folder / "new.harpkeep", db::Access::create, an_evening);
    REQUIRE(ledger);
    CHECK(db::file_kind(ledger->database()) == db::FileKind::current);
    CHECK(ledger->database().integer_of("PRAGMA foreign_keys") == 1);
    CHECK(ledger->database().text_of("PRAGMA journal_mode") == "wal");
    CHECK(ledger->database().integer_of("SELECT count(*) FROM ledger") == 1);
}

TEST_CASE("Ledger::open: a missing ledger is not made by a reader", "[db]")
{
    const TemporaryFolder folder;
    for (const auto access : {db::Access::read, db::Access::write}) {
        const auto ledger = db::Ledger::open(folder / "none.harpkeep", access, an_evening);
        REQUIRE_FALSE(ledger);
        CHECK(ledger.error().code == ErrorCode::not_found);
    }
    CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE("Ledger::open: the folder must be there", "[db]")
{
    const TemporaryFolder folder;
    const auto ledger = db::Ledger::open(folder / "no/such/new.harpkeep", db::Access::create, an_evening);
    CHECK(ledger.error().code == ErrorCode::not_found);
}

TEST_CASE("the ledger itself refuses to change or delete a row", "[db]")
{
    auto ledger = ledger_in_memory();
    REQUIRE(db::add_harp(ledger, that_evening(), concert_harp("Heron")));
    for (const char* change : {"UPDATE harp SET name = 'Wren'", "DELETE FROM harp_string", "DELETE FROM fact",
                               "UPDATE action SET what = 'x'", "DELETE FROM thing"})
        CHECK_THROWS_AS(ledger.database().execute(change), db::LedgerFailure);
}

TEST_CASE("Ledger::new_id: keys rise even when the clock stands still or is set back", "[db][property]")
{
    auto ledger = ledger_in_memory();
    Uuid before = ledger.new_id(an_evening);
    bool rising = true;
    for (int i = 0; i < 10'000; ++i) {
        const Uuid next = ledger.new_id({an_evening.utc_ms - i % 3, 0});
        rising = rising && before < next;
        before = next;
    }
    CHECK(rising);
}

TEST_CASE("Action: nothing of it is there without commit", "[db]")
{
    auto ledger = ledger_in_memory();
    {
        db::Action action{ledger, that_evening(), "began something"};
        (void)action.add("harp");
    }
    CHECK(ledger.database().integer_of("SELECT count(*) FROM action") == 0);
    CHECK(ledger.database().integer_of("SELECT count(*) FROM thing") == 0);
}

TEST_CASE("Action: a correction supersedes, a void ends, a restoration brings back", "[db]")
{
    auto ledger = ledger_in_memory();
    const auto content = [&] {
        auto query = ledger.database().prepare("SELECT content_no FROM current_fact");
        return query.step() ? query.optional_integer() : std::nullopt;
    };
    db::NewThing thing;
    db::FactNo second;
    {
        db::Action action{ledger, that_evening(), "add"};
        thing = action.add("harp");
        action.commit();
    }
    CHECK(content() == thing.fact.value);
    {
        db::Action action{ledger, that_evening(), "correct"};
        second = action.correct(thing.thing, "");
        action.commit();
    }
    CHECK(content() == second.value);
    {
        db::Action action{ledger, that_evening(), "void"};
        action.make_void(thing.thing, "a mistake");
        action.commit();
    }
    CHECK(content() == std::nullopt);
    {
        db::Action action{ledger, that_evening(), "undo"};
        action.restore(thing.thing, thing.fact, "");
        action.commit();
    }
    CHECK(content() == thing.fact.value);
}

TEST_CASE("schema: every table is STRICT, columns name their units, and CHECKs forbid what cannot be", "[db]")
{
    auto ledger = ledger_in_memory();
    const db::Database& database = ledger.database();
    CHECK(database.integer_of("SELECT count(*) FROM pragma_table_list WHERE type = 'table' AND schema = 'main' "
                              "AND name NOT LIKE 'sqlite_%' AND strict = 0") == 0);
    auto tables = database.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'");
    const std::set<std::string> measured{"hz", "cents", "c", "percent", "mm", "m", "s", "db", "ms", "min",
                                         "microcents", "millicents", "millihertz", "billionths", "tenths"};
    while (tables.step()) {
        const std::string table = tables.text();
        const std::string sql = tables.text();
        CAPTURE(table);
        auto columns = database.prepare("SELECT name, type FROM pragma_table_info(:table)");
        columns.bind(":table", table);
        while (columns.step()) {
            const std::string column = columns.text();
            CAPTURE(column);
            if (columns.text() != "REAL") continue;
            const bool counts = column == "degrees_of_freedom" || column == "inharmonicity"; // numbers without a unit
            CHECK((counts || measured.contains(column.substr(column.rfind('_') + 1))));
            CHECK((sql.find("CHECK (" + column) != std::string::npos || column == "inharmonicity" ||
                   column == "glide_cents" || column == "snr_db" || column == "level_db")); // these may be any
        }
    }
}
