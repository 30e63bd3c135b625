// SPDX-License-Identifier: MIT
#include "ui/cli/ledger_access.hpp"

#include "db/ledger/default_path.hpp"
#include "ui/support/clock.hpp"

namespace harpkeep::cli {

Result<db::Ledger> open_ledger(const Common& common, db::Access access)
{
    std::string path = common.ledger_path;
    if (path.empty()) {
        auto found = db::default_ledger_path();
        if (!found) return failure(found.error());
        path = *found;
    }
    return db::Ledger::open(path, access, ui::now());
}

} // namespace harpkeep::cli
