// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "db/ledger/ledger.hpp"
#include "records/harp_record.hpp"

#include <cstdint>

namespace harpkeep::ui {

/// Plan, strings and their ends of one invented harp.
///
/// Given  since_day    when its strings began to be written down
///        with_breaks  false: only what was put on then
///        troubled     a place whose strings break early, as if something cuts them; or none
[[nodiscard]] Result<void> add_demo_strings(db::Ledger& ledger, const db::Author& author,
                                            const HarpRecord& harp, int since_day, bool with_breaks,
                                            std::optional<StringPlace> troubled, std::uint64_t seed);

/// A few spares in the cupboard.
[[nodiscard]] Result<void> add_demo_spares(db::Ledger& ledger, const db::Author& author, const Uuid& harp_id);

} // namespace harpkeep::ui
