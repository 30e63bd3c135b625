// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/string_record.hpp"

#include <vector>

namespace harpkeep::db {

/// What strings are meant for these places, in one action; a place that has a plan gets the new one.
/// Refused: a place that the harp does not have.
[[nodiscard]] Result<void> plan_strings(Ledger& ledger, const Author& author,
                                        const std::vector<PlannedString>& strings);

/// The stringing plan of a harp, lowest place first; places without a plan are left out.
[[nodiscard]] Result<std::vector<PlannedStringRecord>> string_plan(const Ledger& ledger, const Uuid& harp_id);

} // namespace harpkeep::db
