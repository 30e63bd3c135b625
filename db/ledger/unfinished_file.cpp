// SPDX-License-Identifier: MIT
#include "db/ledger/unfinished_file.hpp"

#include "db/sqlite/ledger_failure.hpp"

#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::db {

namespace fs = std::filesystem;

UnfinishedFile::UnfinishedFile(std::string path) : path_(std::move(path))
{
    remove();
}

UnfinishedFile::~UnfinishedFile()
{
    remove();
}

void UnfinishedFile::remove() const
{
    std::error_code ignored;
    for (const char* part : {"", "-wal", "-shm", "-journal"}) fs::remove_all(path_ + part, ignored);
}

void UnfinishedFile::keep_as(const std::string& new_path) const
{
    if (is_there(new_path)) fail(ErrorCode::refused, new_path + " is there already; name a new file");
    move_file(path_, new_path);
}

bool is_there(const std::string& path)
{
    std::error_code ignored;
    return fs::exists(path, ignored);
}

void move_file(const std::string& from, const std::string& to)
{
    std::error_code code;
    fs::rename(from, to, code);
    if (code)
        fail(ErrorCode::unavailable,
             fmt::format("{} cannot become {}: {}; see to the permissions of the folder", from, to,
                         code.message()));
}

} // namespace harpkeep::db
