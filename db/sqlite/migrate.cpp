// SPDX-License-Identifier: MIT
#include "db/sqlite/migrate.hpp"

#include "base/expects.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/schema_steps.hpp"
#include "db/sqlite/transaction.hpp"

#include <fmt/format.h>
#include <vector>

namespace harpkeep::db {

namespace {

/// Facts are added, never overwritten: the file itself refuses anything else, whoever writes to it. A check
/// under way (open_check and its rows) is no fact yet.
void guard_tables(const Database& database)
{
    std::vector<std::string> tables;
    auto query =
        database.prepare("SELECT name FROM sqlite_schema "
                         "WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'open_%'");
    while (query.step()) tables.push_back(query.text());
    for (const auto& table : tables)
        for (const char* change : {"UPDATE", "DELETE"})
            database.execute(fmt::format("CREATE TRIGGER IF NOT EXISTS no_{1}_of_{0} BEFORE {1} ON {0} BEGIN "
                                         "SELECT RAISE(ABORT, 'rows of {0} are never changed'); END",
                                         table, change));
}

void write_step(const Database& database, const SchemaStep& step)
{
    database.execute(step.sql);
    guard_tables(database);
    database.execute(fmt::format("PRAGMA application_id = {}", application_id));
    database.execute(fmt::format("PRAGMA user_version = {}", step.version));
    if (schema_version(database) != step.version)
        fail(ErrorCode::unavailable, database.path() + ": the schema version cannot be written");
}

void run_step(const Database& database, const SchemaStep& step)
{
    Transaction transaction{database, Transaction::Kind::write};
    if (schema_version(database) >= step.version) return; // another program was faster
    write_step(database, step);
    transaction.commit();
}

} // namespace

std::int64_t schema_version(const Database& database)
{
    return database.integer_of("PRAGMA user_version");
}

std::int64_t newest_schema_version()
{
    return schema_steps().back().version;
}

FileKind file_kind(const Database& database)
{
    const auto mark = database.integer_of("PRAGMA application_id");
    const auto version = schema_version(database);
    if (mark == 0 && version == 0 && database.integer_of("SELECT count(*) FROM sqlite_schema") == 0)
        return FileKind::empty;
    if (mark != application_id) return FileKind::other_program;
    if (version == newest_schema_version()) return FileKind::current;
    return version < newest_schema_version() ? FileKind::older : FileKind::newer;
}

namespace {

void run_steps(const Database& database, std::int64_t last_version,
               const std::function<void(std::int64_t)>& before_step)
{
    for (const SchemaStep& step : schema_steps()) {
        const auto version = schema_version(database);
        if (version >= step.version || step.version > last_version) continue;
        before_step(version);
        run_step(database, step);
    }
}

} // namespace

void make_schema(const Database& database, const std::function<void()>& fill)
{
    Transaction transaction{database, Transaction::Kind::write};
    if (file_kind(database) != FileKind::empty) return; // another program was faster
    for (const SchemaStep& step : schema_steps()) write_step(database, step);
    fill();
    transaction.commit();
}

void migrate(const Database& database, const std::function<void(std::int64_t)>& before_step)
{
    run_steps(database, newest_schema_version(), before_step);
}

void migrate_to(const Database& database, std::int64_t version)
{
    HARPKEEP_EXPECTS(version >= 1 && version <= newest_schema_version());
    run_steps(database, version, [](std::int64_t) {});
}

} // namespace harpkeep::db
