// SPDX-License-Identifier: MIT
#pragma once

#include "base/error.hpp"

#include <string_view>

namespace harpkeep::cli {

/// Exit codes, as listed by `harpkeep --help`.
enum class ExitCode {
    done = 0,
    internal = 1,
    usage = 2,
    not_found = 3,
    unusable_input = 4,
    refused = 5,
    unavailable = 6,
    corrupt = 7,
};

[[nodiscard]] constexpr ExitCode exit_code_for(ErrorCode code)
{
    switch (code) {
    case ErrorCode::invalid_argument:
        return ExitCode::usage;
    case ErrorCode::not_found:
        return ExitCode::not_found;
    case ErrorCode::unusable_input:
        return ExitCode::unusable_input;
    case ErrorCode::refused:
        return ExitCode::refused;
    case ErrorCode::unavailable:
        return ExitCode::unavailable;
    case ErrorCode::corrupt:
        return ExitCode::corrupt;
    }
    return ExitCode::internal;
}

inline constexpr std::string_view exit_code_help =
    "Exit codes: 0 done, 1 internal error, 2 wrong use, 3 named thing not found, 4 input unusable,\n"
    "            5 refused by a rule of the ledger, 6 the system said no (permission, disk full, device),\n"
    "            7 stored data corrupt. After any but 0 the ledger is as it was.";

} // namespace harpkeep::cli
