// SPDX-License-Identifier: MIT
#include "db/ledger/ledger.hpp"

#include "db/ledger/blank_ledger.hpp"
#include "db/ledger/unfinished_file.hpp"
#include "db/sqlite/failure_of.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"
#include "db/sqlite/transaction.hpp"

#include <chrono>
#include <filesystem>
#include <fmt/format.h>
#include <thread>
#include <unistd.h>

namespace harpkeep::db {

namespace {

namespace fs = std::filesystem;

constexpr std::string_view in_memory = ":memory:";

/// The file behind all symbolic links, so that log files and backups lie beside the file itself.
std::string resolved(const std::string& path)
{
    if (path == in_memory) return path;
    std::error_code code;
    const fs::path real = fs::weakly_canonical(path, code);
    return code ? path : real.string();
}

void expect_file(const std::string& path, Access access)
{
    if (path == in_memory) return;
    std::error_code code;
    const auto status = fs::status(path, code);
    if (fs::is_directory(status)) fail(ErrorCode::unavailable, path + ": is a folder; name a file in it");
    if (fs::exists(status)) return;
    if (status.type() == fs::file_type::none && code)
        fail(ErrorCode::unavailable,
             fmt::format("{}: {}; see to the permissions of its folder", path, code.message()));
    if (access != Access::create)
        fail(ErrorCode::not_found, path +
                                       ": there is no such ledger; `harpkeep harp add` begins one, --ledger "
                                       "names another");
    const fs::path folder = fs::path{path}.parent_path();
    if (!folder.empty() && !fs::is_directory(folder, code))
        fail(ErrorCode::not_found,
             fmt::format("{}: the folder {} does not exist; make it first", path, folder.string()));
}

/// Switching needs the file for itself, and SQLite does not wait for that: two programs that make a ledger at
/// once.
std::string switched_mode(const Database& database)
{
    const auto until = std::chrono::steady_clock::now() + std::chrono::milliseconds{busy_timeout_ms};
    while (true) {
        const auto mode = guarded("switching to the write-ahead log",
                                  [&] { return database.text_of("PRAGMA journal_mode = WAL"); });
        if (mode) return *mode;
        if (!is_busy(mode.error()) || std::chrono::steady_clock::now() > until)
            throw LedgerFailure{mode.error()};
        std::this_thread::sleep_for(std::chrono::milliseconds{5});
    }
}

void use_write_ahead_log(const Database& database)
{
    if (database.text_of("PRAGMA journal_mode") == "wal") return;
    if (switched_mode(database) != "wal" && database.path() != in_memory)
        fail(ErrorCode::unavailable, database.path() +
                                         ": this file system does not let two programs share the "
                                         "ledger; keep it on a local disk");
}

/// A copy of the file as it is, under a name that no earlier copy has; none of a file that holds nothing.
void keep_copy(const Database& database, std::int64_t version)
{
    if (version == 0 || database.path() == in_memory || is_blank(database)) return;
    const std::string name = fmt::format("{}.schema-{}", database.path(), version);
    const UnfinishedFile unfinished{fmt::format("{}.{}.unfinished", name, getpid())};
    database.copy_to(unfinished.path());
    std::string copy = name + ".backup";
    for (int number = 2; is_there(copy); ++number) copy = fmt::format("{}-{}.backup", name, number);
    unfinished.keep_as(copy);
}

void stamp(const Database& database, const Uuid& id, Moment now)
{
    database
        .prepare("INSERT INTO ledger (only_row, id, created_utc_ms, created_offset_min) "
                 "VALUES (1, :id, :utc_ms, :offset_min)")
        .bind(":id", id)
        .bind(":utc_ms", now.utc_ms)
        .bind(":offset_min", now.offset_minutes)
        .run();
}

void refuse_others(const Database& database, FileKind kind)
{
    if (kind == FileKind::other_program)
        fail(ErrorCode::unusable_input, database.path() +
                                            ": belongs to another program; nothing was changed. "
                                            "Name a ledger with --ledger");
    if (kind == FileKind::newer)
        fail(ErrorCode::refused,
             fmt::format(
                 "{}: was written by a later version of harpkeep (schema {}, this one knows {}); nothing "
                 "was changed. Install that version",
                 database.path(), schema_version(database), newest_schema_version()));
}

} // namespace

Result<Ledger> Ledger::open(const std::string& path, Access access, Moment now)
{
    return guarded("opening the ledger", [&] {
        const std::string file = resolved(path);
        expect_file(file, access);
        Database database{file, access};
        FileKind kind = file_kind(database);
        refuse_others(database, kind);
        if (access == Access::read && kind == FileKind::older) {
            database = Database{file, Access::write}; // a reader brings an older ledger up to date as well
        } else if (access != Access::create && kind == FileKind::empty) {
            fail(ErrorCode::unusable_input, file + ": is empty; `harpkeep harp add` begins a ledger in it");
        }
        if (database.is_read_only()) return Ledger{std::move(database)};
        use_write_ahead_log(database);
        Ledger ledger{std::move(database)};
        if (kind == FileKind::empty)
            make_schema(ledger.database(), [&] { stamp(ledger.database(), ledger.new_id(now), now); });
        if (kind == FileKind::older)
            migrate(ledger.database(), [&](std::int64_t version) { keep_copy(ledger.database(), version); });
        return ledger;
    });
}

Uuid Ledger::new_id(Moment now)
{
    // RFC 9562, 6.2, method 1: the 12 bits after the time count up within a millisecond.
    if (now.utc_ms > last_id_ms_) {
        last_id_ms_ = now.utc_ms;
        last_id_counter_ = static_cast<std::uint16_t>(random_() & 0x7FFU); // half the range is left to count
    } else if (++last_id_counter_ > 0xFFFU) {
        ++last_id_ms_;
        last_id_counter_ = 0;
    }
    return uuid_version_7(last_id_ms_, last_id_counter_, random_());
}

} // namespace harpkeep::db
