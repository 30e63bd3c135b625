// SPDX-License-Identifier: MIT
#include "db/ledger/merge.hpp"

#include "db/ledger/catalogue.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"
#include "db/sqlite/transaction.hpp"

#include <filesystem>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

namespace fs = std::filesystem;

/// A copy that is gone at the end.
class TemporaryCopy {
  public:
    TemporaryCopy() = default;
    TemporaryCopy(const TemporaryCopy&) = delete;
    TemporaryCopy& operator=(const TemporaryCopy&) = delete;
    ~TemporaryCopy()
    {
        std::error_code ignored;
        if (!path_.empty())
            for (const char* part : {"", "-wal", "-shm"}) fs::remove(path_ + part, ignored);
    }
    void make(const Database& database, const std::string& path)
    {
        path_ = path;
        database.copy_to(path);
    }

  private:
    std::string path_;
};

/// The file to read from: the other ledger itself, or, when its schema is older, a copy brought up to date.
std::string readable_ledger(const Ledger& ledger, const std::string& other_path, Moment now,
                            TemporaryCopy& copy)
{
    const Database other{other_path, Access::read};
    switch (file_kind(other)) {
    case FileKind::current:
        return other_path;
    case FileKind::older:
        break;
    case FileKind::newer:
        fail(ErrorCode::refused,
             fmt::format("{}: was written by a later version of harpkeep; install that version here",
                         other_path));
    case FileKind::empty:
    case FileKind::other_program:
        fail(ErrorCode::unusable_input, other_path + ": is no ledger; name the file of the other ledger");
    }
    const std::string path = fmt::format("{}.merging-{}", ledger.path(), now.utc_ms);
    copy.make(other, path);
    const Database fresh{path, Access::write};
    migrate(fresh, [](std::int64_t) {});
    return path;
}

/// Matches the rows of a table with keys: for each row of the other ledger its number here, new or known.
void match_rows(const Database& database, const std::string& table)
{
    database.execute(fmt::format("CREATE TEMP TABLE map_{0} (other_no INTEGER PRIMARY KEY, own_no INTEGER "
                                 "NOT NULL, is_new INTEGER NOT NULL);"
                                 "INSERT INTO map_{0} SELECT o.{0}_no, "
                                 "coalesce(m.{0}_no, (SELECT coalesce(max({0}_no), 0) FROM main.{0}) "
                                 "+ sum(m.{0}_no IS NULL) OVER (ORDER BY o.{0}_no)), m.{0}_no IS NULL "
                                 "FROM other.{0} o LEFT JOIN main.{0} m ON m.id = o.id",
                                 table));
}

const char* map_of(Points points)
{
    switch (points) {
    case Points::to_thing:
        return "map_thing";
    case Points::to_fact:
        return "map_fact";
    case Points::to_action:
        return "map_action";
    case Points::nowhere:
        break;
    }
    return nullptr;
}

/// Rows of a table whose first column is a number that differs between ledgers: those that are new come over,
/// with every such number translated.
void copy_new_rows(const Database& database, const TableInfo& table, const std::string& key_map)
{
    std::vector<std::string> names, values, joins;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const Column& column = table.columns[i];
        const std::string map =
            i == 0 ? key_map : (map_of(column.points) == nullptr ? "" : map_of(column.points));
        names.push_back(column.name);
        if (map.empty()) {
            values.push_back("o." + column.name);
            continue;
        }
        const std::string alias = fmt::format("m{}", i);
        values.push_back(alias + ".own_no");
        joins.push_back(fmt::format("{0} JOIN {1} {2} ON {2}.other_no = o.{3}", i == 0 ? "" : "LEFT", map,
                                    alias, column.name));
    }
    database.execute(fmt::format("INSERT INTO main.{0} ({1}) SELECT {2} FROM other.{0} o {3} WHERE m0.is_new",
                                 table.name, fmt::join(names, ", "), fmt::join(values, ", "),
                                 fmt::join(joins, " ")));
}

/// Rows that mean the same in every ledger (files by their hash, the kinds of things).
void copy_missing_rows(const Database& database, const TableInfo& table)
{
    std::vector<std::string> names;
    for (const Column& column : table.columns) names.push_back(column.name);
    database.execute(fmt::format("INSERT INTO main.{0} ({1}) SELECT {1} FROM other.{0} WHERE true "
                                 "ON CONFLICT DO NOTHING",
                                 table.name, fmt::join(names, ", ")));
}

/// A key that both ledgers have must mean the same in both.
void expect_agreement(const Database& database)
{
    const auto differing_things =
        database.integer_of("SELECT count(*) FROM other.thing o JOIN main.thing m USING (id) "
                            "WHERE m.kind <> o.kind");
    const auto differing_facts = database.integer_of("SELECT count(*) FROM other.fact o JOIN main.fact m "
                                                     "USING (id) JOIN map_thing t ON t.other_no = o.thing_no "
                                                     "WHERE m.thing_no <> t.own_no OR m.effect <> o.effect");
    if (differing_things + differing_facts > 0)
        fail(ErrorCode::corrupt,
             "one key means different things in the two ledgers, so one of them is damaged; "
             "`harpkeep ledger verify` tells which");
}

std::int64_t new_rows(const Database& database, const std::string& table)
{
    return database.integer_of(fmt::format("SELECT count(*) FROM map_{} WHERE is_new", table));
}

MergeReport take_over(const Database& database)
{
    for (const char* table : {"action", "thing", "fact"}) match_rows(database, table);
    expect_agreement(database);
    database.execute("PRAGMA defer_foreign_keys = ON"); // rows refer to rows that come later
    for (const TableInfo& table : catalogue(database)) {
        const bool has_map = table.name == "action" || table.name == "thing" || table.name == "fact";
        if (table.name == "ledger") continue;
        if (has_map)
            copy_new_rows(database, table, "map_" + table.name);
        else if (table.has_facts())
            copy_new_rows(database, table, "map_fact");
        else
            copy_missing_rows(database, table);
    }
    MergeReport report;
    report.new_actions = new_rows(database, "action");
    report.new_things = new_rows(database, "thing");
    report.new_facts = new_rows(database, "fact");
    return report;
}

/// Detaches the other ledger and drops the maps, whatever happened.
struct Attached {
    const Database& database;

    Attached(const Database& own, const std::string& path) : database(own) { own.attach(path, "other"); }
    Attached(const Attached&) = delete;
    Attached& operator=(const Attached&) = delete;
    ~Attached()
    {
        try {
            for (const char* table : {"action", "thing", "fact"})
                database.execute(fmt::format("DROP TABLE IF EXISTS temp.map_{}", table));
            database.detach("other");
        } catch (const LedgerFailure&) {
            return; // both are gone when the connection closes
        }
    }
};

} // namespace

Result<MergeReport> merge_from(Ledger& ledger, const std::string& other_path, Moment now)
{
    auto report = guarded("merging", [&] {
        const Database& database = ledger.database();
        std::error_code code;
        if (!fs::exists(other_path, code))
            fail(ErrorCode::not_found, other_path + ": there is no such file; name the other ledger");
        if (fs::equivalent(other_path, ledger.path(), code))
            fail(ErrorCode::invalid_argument, "a ledger cannot be merged with itself; name another file");
        TemporaryCopy copy;
        const std::string path = readable_ledger(ledger, fs::absolute(other_path).string(), now, copy);
        const Attached attached{database, path};
        Transaction transaction{database, Transaction::Kind::write};
        MergeReport taken = take_over(database);
        transaction.commit();
        return taken;
    });
    if (!report) return report;
    auto found = conflicts(ledger);
    if (!found) return failure(found.error());
    report->conflicts = std::move(*found);
    return report;
}

} // namespace harpkeep::db
