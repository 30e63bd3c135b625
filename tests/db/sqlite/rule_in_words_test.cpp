// SPDX-License-Identifier: MIT
#include "db/sqlite/rule_in_words.hpp"

#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <regex>
#include <vector>

using namespace harpkeep;

namespace {

db::Database fresh()
{
    db::Database database{":memory:", db::Access::create};
    db::migrate_to(database, db::newest_schema_version());
    return database;
}

/// The expressions of all CHECKs of a table, as SQLite's message has them.
std::vector<std::string> checks_in(const std::string& sql)
{
    std::vector<std::string> checks;
    for (auto at = sql.find("CHECK ("); at != std::string::npos; at = sql.find("CHECK (", at + 1)) {
        std::size_t end = at + 7;
        for (int depth = 1; depth > 0; ++end) depth += sql[end] == '(' ? 1 : (sql[end] == ')' ? -1 : 0);
        checks.push_back(sql.substr(at + 7, end - at - 8));
    }
    return checks;
}

} // namespace

TEST_CASE("rule_in_words: every CHECK of the schema has words that hold no SQL", "[db]")
{
    const auto database = fresh();
    auto query =
        database.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'table' AND sql NOT NULL");
    int count = 0;
    while (query.step()) {
        const std::string table = query.text();
        for (const std::string& check : checks_in(query.text())) {
            const auto words = db::rule_in_words("CHECK constraint failed: " + check);
            CAPTURE(table, check, words);
            CHECK(words != db::unknown_rule);
            CHECK_FALSE(std::regex_search(words, std::regex{"NULL|CHECK|<>|[()=]|BETWEEN|GLOB|coalesce"}));
            ++count;
        }
    }
    CHECK(count > 150); // the schema has some 200
}

TEST_CASE("rule_in_words: what SQLite itself says of a broken rule is told in words", "[db]")
{
    const auto database = fresh();
    database.execute("INSERT INTO thing VALUES (1, x'00112233445566778899AABBCCDDEEFF', 'harp')");
    const auto refusal = [&](const std::string& sql) -> std::string {
        try {
            database.execute(sql);
        } catch (const db::LedgerFailure& failure) {
            CHECK(failure.error().code == ErrorCode::refused);
            return failure.error().message;
        }
        return "";
    };
    using Catch::Matchers::Contains;
    CHECK_THAT(refusal("INSERT INTO thing VALUES (2, x'00', 'harp')"),
               Contains(": id must be 16 bytes long"));
    CHECK_THAT(refusal("INSERT INTO thing VALUES (2, x'00112233445566778899AABBCCDDEEFF', 'harp')"),
               Contains("there is a row with the same id already"));
    CHECK_THAT(refusal("INSERT INTO thing VALUES (2, NULL, 'harp')"), Contains("id must not be empty"));
    CHECK_THAT(refusal("INSERT INTO check_missing VALUES ('x', 1, 1)"),
               Contains("fact_no must be a whole number"));
    CHECK_THAT(refusal("UPDATE thing SET kind = 'room'"), Contains("rows of thing are never changed"));
    CHECK_THAT(refusal("INSERT INTO harp_string VALUES (1, 63, 0, 0, 0)"),
               Contains("place must lie from 0 to 62"));
    CHECK_THAT(refusal("INSERT INTO harp_string VALUES (1, 6, 0, 2, 0)"),
               Contains("has_natural_disc must be one of 0, 1"));
}
