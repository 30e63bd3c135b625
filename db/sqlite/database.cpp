// SPDX-License-Identifier: MIT
#include "db/sqlite/database.hpp"

#include "base/expects.hpp"
#include "db/sqlite/connection.hpp"

#include <SQLiteCpp/Backup.h>
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

} // namespace

Database::Database(const std::string& path, Access access)
    : implementation_(std::make_unique<Implementation>(Implementation{path, access == Access::read, nullptr}))
{
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
        return Statement{std::unique_ptr<Statement::Implementation>{new Statement::Implementation{
            SQLite::Statement{*implementation_->handle, std::string{sql}}, implementation_->path}}};
    });
}

void Database::execute(std::string_view sql) const
{
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
