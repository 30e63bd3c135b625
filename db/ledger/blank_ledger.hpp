// SPDX-License-Identifier: MIT
#pragma once

#include "db/sqlite/database.hpp"

namespace harpkeep::db {

/// Whether nothing was ever noted in a ledger, so that there is nothing to lose.
[[nodiscard]] inline bool is_blank(const Database& database)
{
    return database.integer_of("SELECT EXISTS (SELECT 1 FROM action)") == 0;
}

} // namespace harpkeep::db
