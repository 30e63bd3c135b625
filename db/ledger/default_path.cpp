// SPDX-License-Identifier: MIT
#include "db/ledger/default_path.hpp"

#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>

namespace harpkeep::db {

namespace {

std::filesystem::path environment_folder(const char* variable)
{
    const char* value = std::getenv(variable);
    const std::filesystem::path folder{value == nullptr ? "" : value};
    return folder.is_absolute() ? folder : std::filesystem::path{};
}

} // namespace

Result<std::string> default_ledger_path()
{
    auto data = environment_folder("XDG_DATA_HOME");
    if (data.empty()) {
        const auto home = environment_folder("HOME");
        if (home.empty())
            return failure(ErrorCode::unavailable,
                           "finding the default ledger: neither XDG_DATA_HOME nor HOME names "
                           "a folder; name a ledger with --ledger");
        data = home / ".local" / "share";
    }
    const auto folder = data / "harpkeep";
    std::error_code code;
    std::filesystem::create_directories(folder, code);
    if (code)
        return failure(
            ErrorCode::unavailable,
            fmt::format("making the folder {} for the ledger: {}; see to its permissions or name another "
                        "ledger with --ledger",
                        folder.string(), code.message()));
    return (folder / "ledger.harpkeep").string();
}

} // namespace harpkeep::db
