// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/harp_record.hpp"
#include "ui/cli/command.hpp"

#include <string>

namespace harpkeep::cli {

/// Opens the ledger that --ledger names, or the default one.
[[nodiscard]] Result<db::Ledger> open_ledger(const Common& common, db::Access access);

/// The harp of this name or handle. Without a name: the only harp of the ledger, when there is only one.
[[nodiscard]] Result<HarpRecord> chosen_harp(const db::Ledger& ledger, const std::string& name);

/// An open ledger and one of its harps.
struct LedgerAndHarp {
    db::Ledger ledger;
    HarpRecord harp;
};
[[nodiscard]] Result<LedgerAndHarp> open_harp(const Common& common, db::Access access,
                                              const std::string& name);

} // namespace harpkeep::cli
