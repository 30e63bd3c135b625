// SPDX-License-Identifier: MIT
#include "db/ledger/file_bytes.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fmt/format.h>
#include <memory>
#include <sys/stat.h>

namespace harpkeep::db {

namespace {

using File = std::unique_ptr<std::FILE, int (*)(std::FILE*)>;

tl::unexpected<Error> not_readable(const std::string& path, int code)
{
    return failure(
        code == ENOENT ? ErrorCode::not_found : ErrorCode::unavailable,
        fmt::format("reading {}: {}; see whether it is there and may be read", path, std::strerror(code)));
}

/// Hands the file's bytes, piece by piece, to `take`, until it returns false.
template <class Take>
Result<void> read_file(const std::string& path, Take&& take)
{
    const File file{std::fopen(path.c_str(), "rb"), &std::fclose};
    if (!file) return not_readable(path, errno);
    struct stat status = {};
    if (fstat(fileno(file.get()), &status) == 0 && S_ISDIR(status.st_mode)) return not_readable(path, EISDIR);
    std::array<std::uint8_t, 65536> piece{};
    while (true) {
        const std::size_t count = std::fread(piece.data(), 1, piece.size(), file.get());
        if (count > 0 && !take(std::span{piece}.first(count))) return {};
        if (count < piece.size()) break;
    }
    if (std::ferror(file.get()) != 0) return not_readable(path, errno);
    return {};
}

} // namespace

Result<std::vector<std::uint8_t>> file_bytes(const std::string& path, std::int64_t largest_bytes)
{
    std::vector<std::uint8_t> bytes;
    const auto read = read_file(path, [&](std::span<const std::uint8_t> piece) {
        bytes.insert(bytes.end(), piece.begin(), piece.end());
        return static_cast<std::int64_t>(bytes.size()) <= largest_bytes;
    });
    if (!read) return failure(read.error());
    if (static_cast<std::int64_t>(bytes.size()) > largest_bytes)
        return failure(ErrorCode::refused,
                       fmt::format("{} has more than {} MB; keep it elsewhere and note its path", path,
                                   largest_bytes / 1'048'576));
    return bytes;
}

Result<Sha256Hash> sha256_of_file(const std::string& path)
{
    Sha256 hasher;
    const auto read = read_file(path, [&](std::span<const std::uint8_t> piece) {
        hasher.update(piece);
        return true;
    });
    if (!read) return failure(read.error());
    return hasher.finish();
}

} // namespace harpkeep::db
