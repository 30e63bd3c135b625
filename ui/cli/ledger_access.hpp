// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "db/ledger/things.hpp"
#include "records/harp_record.hpp"
#include "ui/cli/command.hpp"

#include <map>
#include <optional>
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

/// The key of a thing of this kind that a handle or key names; another kind is told.
[[nodiscard]] Result<Uuid> thing_of_kind(const db::Ledger& ledger, const std::string& handle,
                                         const std::string& kind);

/// The name of each harp and room, for lists.
class Names {
  public:
    [[nodiscard]] static Result<Names> in(const db::Ledger& ledger);
    /// The name, or the handle of what has none.
    [[nodiscard]] std::string of(const Uuid& id) const;
    [[nodiscard]] std::string of(const std::optional<Uuid>& id) const { return id ? of(*id) : std::string{}; }

  private:
    std::map<Uuid, std::string> names_;
};

} // namespace harpkeep::cli
