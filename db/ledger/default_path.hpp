// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <string>

namespace harpkeep::db {

/// Where the ledger lies when nobody says otherwise: $XDG_DATA_HOME/harpkeep/ledger.harpkeep, and
/// ~/.local/share in place of an unset $XDG_DATA_HOME. Makes the folder when it is missing.
///
/// Reference  XDG Base Directory Specification 0.8 (from memory): relative paths in the variable are ignored
[[nodiscard]] Result<std::string> default_ledger_path();

} // namespace harpkeep::db
