// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "ui/cli/command.hpp"

namespace harpkeep::cli {

/// Opens the ledger that --ledger names, or the default one.
[[nodiscard]] Result<db::Ledger> open_ledger(const Common& common, db::Access access);

} // namespace harpkeep::cli
