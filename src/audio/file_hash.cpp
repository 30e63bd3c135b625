// SPDX-License-Identifier: MIT
#include "audio/file_hash.hpp"

extern "C" {
#include <libavutil/mem.h>
#include <libavutil/sha.h>
}

#include "base/expects.hpp"

#include <array>
#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <fmt/format.h>
#include <memory>
#include <system_error>
#include <vector>

namespace harpkeep {

namespace {

struct FreeHash {
    void operator()(AVSHA* hash) const { av_free(hash); }
};
struct CloseFile {
    void operator()(std::FILE* file) const { std::fclose(file); }
};

tl::unexpected<Error> read_failure(const std::string& path, int reason)
{
    return failure(reason == ENOENT ? ErrorCode::not_found : ErrorCode::unavailable,
                   fmt::format("cannot read {}: {}; check the name and the folder", path,
                               std::generic_category().message(reason)));
}

} // namespace

Result<std::string> sha256_of_file(const std::string& path)
{
    const std::unique_ptr<std::FILE, CloseFile> file(std::fopen(path.c_str(), "rb"));
    if (file == nullptr) return read_failure(path, errno);
    const std::unique_ptr<AVSHA, FreeHash> hash(av_sha_alloc());
    HARPKEEP_EXPECTS(hash != nullptr && av_sha_init(hash.get(), 256) == 0);

    std::vector<std::uint8_t> buffer(std::size_t{1} << 16);
    while (const std::size_t count = std::fread(buffer.data(), 1, buffer.size(), file.get()))
        av_sha_update(hash.get(), buffer.data(), count);
    if (std::ferror(file.get()) != 0) return read_failure(path, errno);

    std::array<std::uint8_t, 32> digest{};
    av_sha_final(hash.get(), digest.data());
    std::string text;
    for (const std::uint8_t byte : digest) text += fmt::format("{:02x}", byte);
    return text;
}

} // namespace harpkeep
