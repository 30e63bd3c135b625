// SPDX-License-Identifier: MIT
#include "db/ledger/sole_work.hpp"

#include "db/sqlite/ledger_failure.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

namespace harpkeep::db {

namespace {

[[noreturn]] void refuse(const std::string& path, int reason)
{
    fail(ErrorCode::unavailable, fmt::format("{} cannot be locked: {}; see to the permissions of the folder",
                                             path, std::strerror(reason)));
}

} // namespace

SoleWork::SoleWork(const std::string& path) : file_(open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644))
{
    if (file_ < 0) refuse(path, errno);
    while (flock(file_, LOCK_EX) != 0) {
        if (errno == EINTR) continue;
        const int reason = errno;
        close(file_);
        refuse(path, reason);
    }
}

SoleWork::~SoleWork()
{
    close(file_); // which also unlocks it
}

} // namespace harpkeep::db
