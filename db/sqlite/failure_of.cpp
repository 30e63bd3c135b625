// SPDX-License-Identifier: MIT
#include "db/sqlite/failure_of.hpp"

#include "db/sqlite/rule_in_words.hpp"

#include <SQLiteCpp/Exception.h>
#include <fmt/format.h>
#include <sqlite3.h>

namespace harpkeep::db {

namespace {

constexpr const char* busy_advice = "another program is writing to it; try again when it has finished";

struct Meaning {
    ErrorCode code;
    const char* advice;
};

Meaning meaning_of(int primary_code)
{
    switch (primary_code) {
    case SQLITE_FULL:
        return {ErrorCode::unavailable, "the disk is full; free some space and try again"};
    case SQLITE_READONLY:
        return {ErrorCode::unavailable, "the file or its folder cannot be written; see to its permissions or "
                                        "name another ledger with --ledger"};
    case SQLITE_CANTOPEN:
        return {ErrorCode::unavailable, "the file cannot be opened; see whether it and its folder are there "
                                        "and may be read and written"};
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return {ErrorCode::unavailable, "permission denied; see to the permissions of the file"};
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return {ErrorCode::unavailable, busy_advice};
    case SQLITE_IOERR:
        return {ErrorCode::unavailable, "the disk failed; see whether it is full or was taken away"};
    case SQLITE_NOMEM:
        return {ErrorCode::unavailable, "out of memory"};
    case SQLITE_CORRUPT:
        return {ErrorCode::corrupt,
                "the file is damaged; go back to a backup with `harpkeep ledger restore`"};
    case SQLITE_NOTADB:
        return {ErrorCode::corrupt, "the file is no ledger; name the right one with --ledger"};
    case SQLITE_CONSTRAINT:
        return {ErrorCode::refused, "a rule of the ledger forbids it"};
    default:
        return {ErrorCode::corrupt, "unexpected; see `harpkeep ledger verify`"};
    }
}

} // namespace

Error failure_of(const SQLite::Exception& exception, const std::string& path)
{
    const int primary_code = exception.getErrorCode() & 0xFF;
    const Meaning meaning = meaning_of(primary_code);
    if (primary_code == SQLITE_CONSTRAINT)
        return {meaning.code,
                fmt::format("{}: {}: {}", path, meaning.advice, rule_in_words(exception.what()))};
    return {meaning.code, fmt::format("{}: {} ({})", path, meaning.advice, exception.what())};
}

bool is_busy(const Error& error)
{
    return error.message.find(busy_advice) != std::string::npos;
}

} // namespace harpkeep::db
