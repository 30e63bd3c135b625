// SPDX-License-Identifier: MIT
#include "ui/cli/file_output.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <memory>

namespace harpkeep::cli {

namespace {

tl::unexpected<Error> not_written(const std::string& path, int code)
{
    return failure(ErrorCode::unavailable,
                   fmt::format("writing {}: {}; see to the folder and the space on the disk", path,
                               std::strerror(code)));
}

} // namespace

Result<void> write_output(const std::string& path, std::string_view bytes)
{
    if (path.empty() || path == "-") {
        const bool written =
            std::fwrite(bytes.data(), 1, bytes.size(), stdout) == bytes.size() && std::fflush(stdout) == 0;
        if (!written) return not_written("the output", errno);
        return {};
    }
    const std::string unfinished = path + ".unfinished";
    std::FILE* const file = std::fopen(unfinished.c_str(), "wb");
    if (file == nullptr) return not_written(path, errno);
    const bool written = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
    const int write_code = errno;
    const bool closed = std::fclose(file) == 0;
    std::error_code code;
    if (written && closed) std::filesystem::rename(unfinished, path, code);
    if (written && closed && !code) return {};
    const int reason = !written ? write_code : (!closed ? errno : code.value());
    std::error_code ignored;
    std::filesystem::remove(unfinished, ignored);
    return not_written(path, reason);
}

} // namespace harpkeep::cli
