// SPDX-License-Identifier: MIT
#include "db/ledger/verify.hpp"

#include "base/sha256.hpp"
#include "db/ledger/catalogue.hpp"
#include "db/ledger/conflicts.hpp"
#include "db/ledger/file_bytes.hpp"
#include "db/ledger/things.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"
#include "records/name_key.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

constexpr int most_problems = 50;

void check_file(const Database& database, VerifyReport& report)
{
    auto query = database.prepare(fmt::format("PRAGMA integrity_check({})", most_problems));
    while (query.step())
        if (const std::string line = query.text(); line != "ok")
            report.problems.push_back("the file: " + line);
    auto keys = database.prepare("PRAGMA foreign_key_check");
    while (keys.step()) {
        const std::string table = keys.text();
        const auto row = keys.optional_integer();
        report.problems.push_back(fmt::format("table {}, row {}: refers to a row of {} that is not there",
                                              table, row.value_or(0), keys.text()));
    }
}

/// Counts the rows of a query that must have none.
void expect_none(const Database& database, const std::string& sql, const std::string& words,
                 VerifyReport& report)
{
    const auto count = database.integer_of("SELECT count(*) FROM (" + sql + ")");
    if (count > 0) report.problems.push_back(fmt::format("{}: {}", words, count));
}

void check_facts(const Database& database, VerifyReport& report)
{
    expect_none(database,
                "SELECT 1 FROM thing t WHERE NOT EXISTS (SELECT 1 FROM fact f WHERE f.thing_no = t.thing_no)",
                "things without any fact", report);
    expect_none(
        database,
        "SELECT 1 FROM supersession s JOIN fact a ON a.fact_no = s.fact_no JOIN fact b ON b.fact_no = "
        "s.superseded_no WHERE a.thing_no <> b.thing_no",
        "facts that supersede a fact of another thing", report);
    expect_none(database,
                "SELECT 1 FROM fact f JOIN fact r ON r.fact_no = f.restores_no "
                "WHERE r.thing_no <> f.thing_no OR r.effect <> 'state'",
                "facts that restore what is no statement of their thing", report);
    // Walking down from the heads reaches every fact unless some supersede each other in a circle.
    expect_none(database,
                "SELECT fact_no FROM fact EXCEPT SELECT fact_no FROM (WITH RECURSIVE reached (fact_no) AS ("
                "SELECT fact_no FROM head_fact UNION SELECT s.superseded_no FROM reached r "
                "JOIN supersession s ON s.fact_no = r.fact_no) SELECT fact_no FROM reached)",
                "facts that supersede each other in a circle", report);
    for (const char* table : {"action", "thing", "fact", "ledger"})
        expect_none(database, fmt::format("SELECT 1 FROM {} WHERE substr(hex(id), 13, 1) <> '7'", table),
                    fmt::format("keys of table {} that are no UUID of version 7", table), report);
}

void check_contents(const Database& database, VerifyReport& report)
{
    auto kinds = database.prepare("SELECT name FROM thing_kind");
    while (kinds.step()) {
        const std::string kind = kinds.text();
        const std::string table = content_table_of(kind);
        expect_none(
            database,
            fmt::format(
                "SELECT 1 FROM fact f JOIN thing t USING (thing_no) WHERE t.kind = '{}' AND f.effect = "
                "'state' AND NOT EXISTS (SELECT 1 FROM {} x WHERE x.fact_no = f.fact_no)",
                kind, table),
            fmt::format("statements of a {} without content", kind), report);
        expect_none(
            database,
            fmt::format("SELECT 1 FROM {} x JOIN fact f USING (fact_no) JOIN thing t USING (thing_no) "
                        "WHERE t.kind <> '{}' OR f.effect <> 'state'",
                        table, kind),
            fmt::format("rows of {} that belong to something else", table), report);
    }
    for (const TableInfo& table : catalogue(database))
        for (const Column& column : table.columns) {
            const std::string kind = kind_of_column(column.name);
            if (!table.is_content() || kind.empty()) continue;
            expect_none(
                database,
                fmt::format("SELECT 1 FROM {} x JOIN thing t ON t.thing_no = x.{} WHERE t.kind <> '{}'",
                            table.name, column.name, kind),
                fmt::format("rows of {} whose {} is none", table.name, kind), report);
        }
}

void check_names(const Database& database, VerifyReport& report)
{
    for (const char* table : {"harp", "room"}) {
        auto query = database.prepare(fmt::format("SELECT name, name_key FROM {}", table));
        while (query.step()) {
            const std::string name = query.text();
            if (name_key(name) != query.text())
                report.problems.push_back(fmt::format("the {} {} has a wrong key of its name", table, name));
        }
    }
}

void check_attachments(const Database& database, VerifyReport& report)
{
    auto query = database.prepare("SELECT sha256, content FROM attachment");
    while (query.step()) {
        const auto stored = query.bytes();
        const auto content = query.bytes();
        const Sha256Hash actual = sha256_of(content);
        if (!std::equal(stored.begin(), stored.end(), actual.begin(), actual.end()))
            report.problems.push_back(
                fmt::format("an attachment of {} bytes is not what it was", content.size()));
    }
}

void check_recordings(const Database& database, VerifyReport& report)
{
    auto query = database.prepare("SELECT DISTINCT r.path, r.sha256 FROM check_recording r "
                                  "JOIN current_content USING (fact_no) ORDER BY r.path");
    while (query.step()) {
        const std::string path = query.text();
        const auto stored = query.bytes();
        const auto actual = sha256_of_file(path);
        ++report.recordings_checked;
        if (!actual && actual.error().code == ErrorCode::not_found)
            report.notices.push_back(fmt::format("the recording {} is not there any more", path));
        else if (!actual)
            report.notices.push_back(actual.error().message);
        else if (!std::equal(stored.begin(), stored.end(), actual->begin(), actual->end()))
            report.notices.push_back(fmt::format("the file {} is not the recording that was measured", path));
    }
}

} // namespace

Result<VerifyReport> verify(const Ledger& ledger, const VerifyOptions& options)
{
    auto report = snapshot(ledger, "verifying the ledger", [&] {
        const Database& database = ledger.database();
        VerifyReport found;
        check_file(database, found);
        if (!found.is_sound()) return found; // what follows would only stumble over it
        if (file_kind(database) != FileKind::current)
            found.problems.emplace_back("the marks of the file are wrong");
        if (database.integer_of("SELECT count(*) FROM ledger") != 1)
            found.problems.emplace_back("the ledger has no identity");
        found.facts = database.integer_of("SELECT count(*) FROM fact");
        check_facts(database, found);
        check_contents(database, found);
        check_names(database, found);
        check_attachments(database, found);
        if (options.look_at_recordings) check_recordings(database, found);
        return found;
    });
    if (!report || !report->is_sound()) return report;
    const auto contradictions = conflicts(ledger);
    if (!contradictions) return failure(contradictions.error());
    for (const Conflict& conflict : *contradictions)
        report->notices.push_back(conflict.kind + ": " + conflict.words);
    return report;
}

Result<LedgerInfo> info(const Ledger& ledger)
{
    return snapshot(ledger, "reading about the ledger", [&] {
        const Database& database = ledger.database();
        LedgerInfo found;
        auto identity = database.prepare("SELECT id, created_utc_ms, created_offset_min FROM ledger");
        if (!identity.step()) fail(ErrorCode::corrupt, "the ledger has no identity");
        found.id = identity.uuid();
        found.created.utc_ms = identity.integer();
        found.created.offset_minutes = identity.small_integer();
        found.schema_version = schema_version(database);
        found.size_bytes = database.integer_of("PRAGMA page_count") * database.integer_of("PRAGMA page_size");
        auto kinds = database.prepare("SELECT kind, count(*) FROM thing JOIN current_fact USING (thing_no) "
                                      "GROUP BY kind ORDER BY kind");
        while (kinds.step()) {
            const std::string kind = kinds.text();
            found.things.emplace_back(kind, kinds.integer());
        }
        found.readings = database.integer_of("SELECT count(*) FROM check_reading");
        found.actions = database.integer_of("SELECT count(*) FROM action");
        return found;
    });
}

} // namespace harpkeep::db
