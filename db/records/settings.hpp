// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace harpkeep::db {

/// Sets what an owner wants for one harp, or (without a harp) for all: a tolerance, an interval. The value is
/// JSON; what it means is the business of who reads it.
[[nodiscard]] Result<void> change_setting(Ledger& ledger, const Author& author, std::string_view name,
                                          const std::optional<Uuid>& harp_id, const std::string& value_json);

/// The value for this harp, or else the one for all; nothing when neither was set.
[[nodiscard]] Result<std::optional<std::string>> setting(const Ledger& ledger, std::string_view name,
                                                         const std::optional<Uuid>& harp_id);

} // namespace harpkeep::db
