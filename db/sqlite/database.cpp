// SPDX-License-Identifier: MIT
#include "db/sqlite/database.hpp"

#include "base/expects.hpp"
#include "db/sqlite/connection.hpp"

#include <SQLiteCpp/Backup.h>
#include <algorithm>
#include <array>
#include <filesystem>
#include <fmt/format.h>
#include <sqlite3.h>
#include <system_error>

namespace harpkeep::db {

namespace {

int flags_of(Access access)
{
    switch (access) {
    case Access::read:
        return SQLite::OPEN_READONLY;
    case Access::write:
        return SQLite::OPEN_READWRITE;
    case Access::create:
        break;
    }
    return SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE;
}

// Extended result codes, and addresses in ATTACH; a path of ours is absolute or plain, never "file:...".
constexpr int common_flags = SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_URI;

/// "file:" address of a path, with the characters escaped that mean something there.
std::string uri_of(const std::string& path, const char* parameters)
{
    std::string uri = "file:";
    for (const char character : path) {
        if (character == '?' || character == '#' || character == '%')
            uri += fmt::format("%{:02X}", static_cast<unsigned char>(character));
        else
            uri += character;
    }
    return uri + "?" + parameters;
}

bool can_be_read_from(SQLite::Database& handle)
{
    return handle.tryExec("SELECT 1 FROM sqlite_schema") == SQLITE_OK;
}

/// Whether changes of the file may wait in its write-ahead log.
bool has_log(const std::string& path)
{
    std::error_code code;
    return std::filesystem::file_size(path + "-wal", code) > 0 && !code;
}

/// A reader of a write-ahead-log file needs to make two small files beside it. Where the folder is read-only
/// or its disk full, and no such log is left, the file itself is complete and nobody can change it.
std::unique_ptr<SQLite::Database> opened_for_reading(const std::string& path)
{
    auto handle =
        std::make_unique<SQLite::Database>(path, flags_of(Access::read) | common_flags, busy_timeout_ms);
    if (can_be_read_from(*handle)) return handle;
    const int code = handle->getErrorCode() & 0xFF;
    const bool no_room = code == SQLITE_IOERR || code == SQLITE_FULL;
    if ((code != SQLITE_CANTOPEN && code != SQLITE_READONLY && !no_room) || has_log(path)) return handle;
    return std::make_unique<SQLite::Database>(uri_of(path, "mode=ro&immutable=1"),
                                              flags_of(Access::read) | common_flags, busy_timeout_ms);
}

void set_up(SQLite::Database& handle, bool read_only)
{
    handle.exec("PRAGMA foreign_keys = ON");
    if (handle.execAndGet("PRAGMA foreign_keys").getInt() != 1)
        throw SQLite::Exception("foreign keys cannot be switched on", SQLITE_MISUSE);
    handle.exec("PRAGMA trusted_schema = OFF");
    if (!read_only) handle.exec("PRAGMA synchronous = FULL");
}

/// Whether statements made ready before may mean something else afterwards.
bool may_change_tables(std::string_view sql)
{
    constexpr std::array<std::string_view, 5> words{"CREATE ", "ALTER ", "DROP ", "TACH ", "VACUUM"};
    return std::any_of(words.begin(), words.end(),
                       [&](auto word) { return sql.find(word) != std::string_view::npos; });
}

} // namespace

std::optional<SQLite::Statement> IdleStatements::take(const std::string& sql)
{
    const std::lock_guard lock{mutex_};
    const auto found = idle_.find(sql);
    if (found == idle_.end()) return std::nullopt;
    std::optional<SQLite::Statement> statement{std::move(found->second)};
    idle_.erase(found);
    return statement;
}

void IdleStatements::give(SQLite::Statement&& statement, int generation) noexcept
{
    constexpr std::size_t most = 200; // kinds of questions
    try {
        if (statement.tryReset() != SQLITE_OK) return;
        statement.clearBindings();
        const std::lock_guard lock{mutex_};
        if (generation != generation_) return;
        if (idle_.size() >= most) idle_.clear();
        std::string sql = statement.getQuery();
        idle_.emplace(std::move(sql), std::move(statement));
    } catch (const std::exception&) {
        // One that cannot be made fresh, or for which no memory is left, is not kept: it will be made anew.
    }
}

void IdleStatements::forget()
{
    const std::lock_guard lock{mutex_};
    idle_.clear();
    ++generation_;
}

int IdleStatements::generation() const
{
    const std::lock_guard lock{mutex_};
    return generation_;
}

Database::Database(const std::string& path, Access access)
    : implementation_(std::make_unique<Implementation>())
{
    implementation_->path = path;
    implementation_->read_only = access == Access::read;
    translated(path, [&] {
        if (access == Access::read)
            implementation_->handle = opened_for_reading(path);
        else
            implementation_->handle =
                std::make_unique<SQLite::Database>(path, flags_of(access) | common_flags, busy_timeout_ms);
        set_up(*implementation_->handle, implementation_->read_only);
    });
}

Database::Database(Database&&) noexcept = default;
Database& Database::operator=(Database&&) noexcept = default;
Database::~Database() = default;

Statement Database::prepare(std::string_view sql) const
{
    return translated(implementation_->path, [&] {
        const std::string text{sql};
        const int generation = implementation_->idle->generation();
        auto ready = implementation_->idle->take(text);
        return Statement{std::unique_ptr<Statement::Implementation>{new Statement::Implementation{
            ready ? std::move(*ready) : SQLite::Statement{*implementation_->handle, text},
            implementation_->path, implementation_->idle, generation}}};
    });
}

void Database::execute(std::string_view sql) const
{
    if (may_change_tables(sql)) implementation_->idle->forget();
    translated(implementation_->path, [&] { implementation_->handle->exec(std::string{sql}); });
}

std::int64_t Database::integer_of(std::string_view sql) const
{
    auto query = prepare(sql);
    const bool row = query.step();
    HARPKEEP_EXPECTS(row);
    return query.integer();
}

std::string Database::text_of(std::string_view sql) const
{
    auto query = prepare(sql);
    const bool row = query.step();
    HARPKEEP_EXPECTS(row);
    return query.text();
}

std::int64_t Database::last_row_number() const
{
    return implementation_->handle->getLastInsertRowid();
}

std::int64_t Database::changed_rows() const
{
    return implementation_->handle->getChanges();
}

bool Database::in_transaction() const
{
    return sqlite3_get_autocommit(implementation_->handle->getHandle()) == 0;
}

bool Database::is_read_only() const
{
    return implementation_->read_only;
}

const std::string& Database::path() const
{
    return implementation_->path;
}

void Database::attach(const std::string& path, const std::string& name) const
{
    implementation_->idle->forget();
    const auto attached = [&](const std::string& uri) {
        prepare("ATTACH DATABASE :uri AS " + name).bind(":uri", uri).run();
        return integer_of("SELECT count(*) FROM " + name + ".sqlite_schema");
    };
    try {
        attached(uri_of(path, "mode=ro"));
    } catch (const LedgerFailure&) {
        // A file in a folder that cannot be written; see opened_for_reading().
        if (has_log(path)) throw;
        translated(path, [&] { implementation_->handle->tryExec("DETACH DATABASE " + name); });
        attached(uri_of(path, "mode=ro&immutable=1"));
    }
}

void Database::detach(const std::string& name) const
{
    execute("DETACH DATABASE " + name);
}

void Database::copy_to(const std::string& new_path) const
{
    // The backup interface reports BUSY without throwing when its own connection is writing.
    HARPKEEP_EXPECTS(!in_transaction());
    translated(new_path, [&] {
        SQLite::Database target{new_path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE | common_flags,
                                busy_timeout_ms};
        SQLite::Backup backup{target, *implementation_->handle};
        const int code = backup.executeStep(-1);
        if (code != SQLITE_DONE) throw SQLite::Exception(target.getHandle(), code);
    });
}

} // namespace harpkeep::db
