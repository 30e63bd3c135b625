// SPDX-License-Identifier: MIT
#include "db/sqlite/database.hpp"

#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/schema_steps.hpp"
#include "db/sqlite/transaction.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

template <class Body>
std::optional<Error> error_of(Body&& body)
{
    const auto result = db::guarded("trying", [&] { body(); });
    return result ? std::nullopt : std::optional{result.error()};
}

} // namespace

TEST_CASE("schema steps: are numbered from 1 without gaps", "[db]")
{
    int expected = 0;
    for (const auto& step : db::schema_steps()) CHECK(step.version == ++expected);
    CHECK(expected >= 1);
}

TEST_CASE("Statement: values of every type round trip, and so does NULL", "[db]")
{
    const db::Database database{":memory:", db::Access::create};
    database.execute("CREATE TABLE t (i INTEGER, r REAL, s TEXT, b BLOB) STRICT");
    const std::vector<std::uint8_t> bytes{0, 1, 255};
    auto insert = database.prepare("INSERT INTO t VALUES (:i, :r, :s, :b)");
    insert.bind(":i", std::int64_t{1} << 60)
        .bind(":r", 0.1)
        .bind(":s", "a\"'é")
        .bind(":b", std::span{bytes})
        .run();
    insert.bind(":i", std::optional<int>{})
        .bind(":r", std::optional<double>{})
        .bind_null(":s")
        .bind(":b", std::span<const std::uint8_t>{})
        .run();
    auto query = database.prepare("SELECT i, r, s, b FROM t ORDER BY rowid");
    REQUIRE(query.step());
    CHECK(query.integer() == std::int64_t{1} << 60);
    CHECK(query.real() == 0.1);
    CHECK(query.text() == "a\"'é");
    CHECK(query.bytes() == bytes);
    REQUIRE(query.step());
    CHECK_FALSE(query.optional_integer());
    CHECK_FALSE(query.optional_real());
    CHECK_FALSE(query.optional_text());
    CHECK_FALSE(query.next_is_null());
    CHECK(query.bytes().empty());
    CHECK_FALSE(query.step());
}

TEST_CASE("prepare: a statement that was used before begins anew, with nothing bound", "[db][regression]")
{
    const db::Database database{":memory:", db::Access::create};
    database.execute("CREATE TABLE number (value INTEGER)");
    database.execute("INSERT INTO number VALUES (1), (2), (3)");
    constexpr auto sql = "SELECT value FROM number WHERE value > ifnull(:over, 0) ORDER BY value";
    {
        auto query = database.prepare(sql);
        query.bind(":over", 1);
        REQUIRE(query.step());
        CHECK(query.integer() == 2); // left in the middle
    }
    auto again = database.prepare(sql);
    REQUIRE(again.step());
    CHECK(again.integer() == 1);
    auto beside = database.prepare(sql); // while the other is in use
    REQUIRE(beside.step());
    CHECK(beside.integer() == 1);
    REQUIRE(again.step());
    CHECK(again.integer() == 2);
}

TEST_CASE("prepare: a statement used before sees tables that changed since", "[db][regression]")
{
    const db::Database database{":memory:", db::Access::create};
    database.execute("CREATE TABLE number (value INTEGER)");
    CHECK(database.prepare("SELECT * FROM number").column_count() == 1);
    {
        const auto in_use = database.prepare("SELECT * FROM number");
        database.execute("ALTER TABLE number ADD COLUMN square INTEGER");
    }
    CHECK(database.prepare("SELECT * FROM number").column_count() == 2);
}

TEST_CASE("prepare: a statement that failed is made anew", "[db][regression]")
{
    const db::Database database{":memory:", db::Access::create};
    database.execute("CREATE TABLE number (value INTEGER CHECK (value > 0))");
    constexpr auto sql = "INSERT INTO number VALUES (:value)";
    CHECK(error_of([&] { database.prepare(sql).bind(":value", -1).run(); }).has_value());
    database.prepare(sql).bind(":value", 7).run();
    CHECK(database.integer_of("SELECT sum(value) FROM number") == 7);
}

TEST_CASE("Transaction: is taken back when it is left without commit", "[db]")
{
    const db::Database database{":memory:", db::Access::create};
    database.execute("CREATE TABLE t (i INTEGER)");
    {
        const db::Transaction transaction{database, db::Transaction::Kind::write};
        database.execute("INSERT INTO t VALUES (1)");
    }
    CHECK_FALSE(database.in_transaction());
    CHECK(database.integer_of("SELECT count(*) FROM t") == 0);
    {
        db::Transaction transaction{database, db::Transaction::Kind::write};
        database.execute("INSERT INTO t VALUES (1)");
        transaction.commit();
    }
    CHECK(database.integer_of("SELECT count(*) FROM t") == 1);
}

TEST_CASE("Database: a broken rule is told as one", "[db]")
{
    const db::Database database{":memory:", db::Access::create};
    database.execute("CREATE TABLE t (i INTEGER CHECK (i > 0)) STRICT");
    const auto error = error_of([&] { database.execute("INSERT INTO t VALUES (0)"); });
    REQUIRE(error);
    CHECK(error->code == ErrorCode::refused);
}

TEST_CASE("Database: a file that is none is told as corrupt", "[db]")
{
    const TemporaryFolder folder;
    const auto path = folder / "text.db";
    {
        std::unique_ptr<std::FILE, int (*)(std::FILE*)> file{std::fopen(path.c_str(), "w"), &std::fclose};
        for (int i = 0; i < 100; ++i) std::fputs("this is a letter, not a ledger\n", file.get());
    }
    const auto error = error_of([&] {
        const db::Database database{path, db::Access::write};
        (void)database.integer_of("SELECT count(*) FROM sqlite_schema");
    });
    REQUIRE(error);
    CHECK(error->code == ErrorCode::corrupt);
    CHECK(error->message.find(path) != std::string::npos);
}

TEST_CASE("copy_to: the copy holds what was committed", "[db]")
{
    const TemporaryFolder folder;
    const db::Database database{folder / "a.db", db::Access::create};
    database.execute("CREATE TABLE t (i INTEGER)");
    database.execute("INSERT INTO t VALUES (7)");
    database.copy_to(folder / "b.db");
    const db::Database copy{folder / "b.db", db::Access::read};
    CHECK(copy.integer_of("SELECT i FROM t") == 7);
}
