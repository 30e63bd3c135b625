// SPDX-License-Identifier: MIT
// Every schema that was released is kept as the SQL of a small ledger:
// tests/data/released/schema_<version>.sql.
#include "db/ledger/merge.hpp"
#include "db/ledger/verify.hpp"
#include "db/records/checks.hpp"
#include "db/records/notes.hpp"
#include "db/records/open_checks.hpp"
#include "db/records/settings.hpp"
#include "db/records/strings.hpp"
#include "db/records/visits.hpp"
#include "db/sqlite/migrate.hpp"
#include "db/sqlite/schema_steps.hpp"
#include "tests/support/example_ledger.hpp"
#include "tests/support/ledger_dump.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

std::string released_sql(std::int64_t version)
{
    return tests::read_bytes(fmt::format("{}/data/released/schema_{}.sql", HARPKEEP_TESTS_FOLDER, version));
}

void make_released(const std::string& path, std::int64_t version)
{
    const db::Database file{path, db::Access::create};
    file.execute("PRAGMA foreign_keys = OFF");
    file.execute(released_sql(version));
}

/// What tables, indexes, views and triggers a file has, spaces apart.
std::set<std::string> schema_of(const db::Database& database)
{
    std::set<std::string> all;
    auto query = database.prepare("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL");
    while (query.step()) {
        std::string sql = query.text();
        std::erase_if(sql, [](char character) { return character == ' ' || character == '\n'; });
        all.insert(std::move(sql));
    }
    return all;
}

std::multiset<std::string> rows_of(const db::Database& database)
{
    std::multiset<std::string> rows;
    for (const auto& table : db::catalogue(database)) {
        auto query = database.prepare("SELECT * FROM " + table.name);
        test::add_rows(rows, table.name, query);
    }
    return rows;
}

} // namespace

TEST_CASE("released schemas: each is kept, and its step was not edited since", "[db][regression]")
{
    for (const auto& step : db::schema_steps()) {
        CAPTURE(step.version);
        REQUIRE(!released_sql(step.version).empty());
        const TemporaryFolder folder;
        make_released(folder / "released", step.version);
        const db::Database released{folder / "released", db::Access::read};
        CHECK(db::schema_version(released) == step.version);
        const db::Database fresh{folder / "fresh", db::Access::create};
        db::migrate_to(fresh, step.version);
        CHECK(schema_of(released) == schema_of(fresh));
    }
}

TEST_CASE("released schemas: each is brought up to date, after a backup, and says what it said",
          "[db][regression]")
{
    const auto newest = db::newest_schema_version();
    const auto version = GENERATE_COPY(range(std::int64_t{1}, newest + 1));
    CAPTURE(version);
    const auto access = GENERATE(db::Access::read, db::Access::write);
    const TemporaryFolder folder;
    make_released(folder / "ledger", version);
    const auto before = rows_of(db::Database{folder / "ledger", db::Access::read});

    const auto ledger = db::Ledger::open(folder / "ledger", access, an_evening);
    if (!ledger) FAIL(ledger.error().message);
    CHECK(db::schema_version(ledger->database()) == newest);
    auto after = rows_of(ledger->database());
    for (const auto& row : before) {
        CAPTURE(row);
        REQUIRE(after.erase(row) > 0);
    }
    CHECK(db::verify(*ledger, {.look_at_recordings = false})->problems.empty());

    const std::string backup = fmt::format("{}.schema-{}.backup", folder / "ledger", version);
    CHECK(std::filesystem::exists(backup) == (version < newest));
    if (version < newest) CHECK(rows_of(db::Database{backup, db::Access::read}) == before);

    const auto heron = db::harp_named(*ledger, "Heron").value();
    CHECK(heron.details.remarks == "two\nlines");
    CHECK(heron.details.value == Money{2'100'000, "EUR"});
    CHECK(heron.details.layout.strings.size() == 47);
    const auto checks = db::checks_of(*ledger, heron.id).value();
    REQUIRE(checks.size() == 1); // the other is void
    CHECK(checks[0].header.taken == Moment{1736000000123, 60});
    const auto check = db::check(*ledger, checks[0].id, db::WithPartials::yes).value();
    REQUIRE(check.result.readings.size() == 3);
    CHECK(check.result.readings[0].pluck.uncertainty_cents ==
          Approx(0.051234).epsilon(1e-12)); // rounding of a double
    CHECK(check.result.steps.size() == (version < 6 ? 2 : 4));
    CHECK(check.result.whole_steps.size() == (version < 6 ? 1 : 2));
    CHECK(check.result.readings[0].pluck.partials.size() == (version < 6 ? 0 : 1));
    if (version < 2) return;
    const auto lives = db::all_string_lives(*ledger).value();
    REQUIRE(lives.size() == 1);
    CHECK(lives[0].removal->details.broke_at == BreakPoint::disc);
    CHECK(db::visits_of(*ledger, heron.id)->front().visit.work.size() == 2);
    CHECK(db::notes(*ledger)->front().details.attachments.size() == 1);
    CHECK(db::setting(*ledger, "example", std::nullopt).value() == "[1, 2.5]");
    if (version >= 3) CHECK(db::open_checks_of(*ledger, heron.id)->front().state.readings.size() == 1);
}

TEST_CASE("released schemas: a backup that is there already is left alone, and another one made", "[db]")
{
    const TemporaryFolder folder;
    make_released(folder / "ledger", 1);
    tests::write_bytes(folder / "ledger.schema-1.backup", "somebody's");
    REQUIRE(db::Ledger::open(folder / "ledger", db::Access::write, an_evening));
    CHECK(tests::read_bytes(folder / "ledger.schema-1.backup") == "somebody's");
    CHECK(db::schema_version(db::Database{folder / "ledger.schema-1-2.backup", db::Access::read}) == 1);
}

TEST_CASE("released schemas: a ledger in which nothing was noted leaves no backup", "[db]")
{
    const TemporaryFolder folder;
    const auto entries = [&] {
        std::set<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator{folder.path()})
            names.insert(entry.path().filename().string());
        return names;
    };
    {
        const db::Database old{folder / "ledger", db::Access::create};
        db::migrate_to(old, 2);
    }
    REQUIRE(db::Ledger::open(folder / "ledger", db::Access::write, an_evening));
    REQUIRE(db::Ledger::open(folder / "fresh", db::Access::create, an_evening));
    CHECK(entries() == std::set<std::string>{"ledger", "fresh"});
}

TEST_CASE("released schemas: without room for the backup nothing is brought up to date", "[db][faults]")
{
    const TemporaryFolder folder;
    make_released(folder / "ledger", 1);
    const std::string long_name = folder / std::string(245, 'n'); // with the backup's ending over 255 bytes
    std::filesystem::copy_file(folder / "ledger", long_name);
    const auto refused = db::Ledger::open(long_name, db::Access::write, an_evening);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == ErrorCode::unavailable);
    CHECK(db::schema_version(db::Database{long_name, db::Access::read}) == 1);
}

TEST_CASE("released schemas: an older ledger is merged into one that is up to date", "[db]")
{
    const TemporaryFolder folder;
    make_released(folder / "old", 2);
    auto here = db::Ledger::open(folder / "here", db::Access::create, an_evening).value();
    const auto before = tests::read_bytes(folder / "old");
    const auto report = db::merge_from(here, folder / "old", an_evening);
    if (!report) FAIL(report.error().message);
    CHECK(db::all_string_lives(here)->size() == 1);
    CHECK(tests::read_bytes(folder / "old") == before);
}
