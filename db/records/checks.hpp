// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/check_record.hpp"

#include <optional>
#include <vector>

namespace harpkeep::db {

/// Stores a check in one transaction. make_void() of db/ledger/things.hpp takes one out of account.
///
/// Given    header  its harp must be in the ledger; the recordings are those that file_index counts
///          result  as measured
/// Returns  the key of the check
/// Notes    Kept to: frequency exactly, uncertainties and step errors to 1e-6 cent, times to 1 ms, decay to
///          1 ms, inharmonicity to 1e-9, glide to 0.001 cent, signal-to-noise ratio to 0.1 dB, partials as
///          db/records/packed_partials.hpp says.
[[nodiscard]] Result<Uuid> store_check(Ledger& ledger, const Author& author, const CheckHeader& header,
                                       const CheckResult& result);

/// The checks of a harp, youngest first.
[[nodiscard]] Result<std::vector<CheckSummary>> checks_of(const Ledger& ledger, const Uuid& harp_id);

enum class WithPartials { no, yes };

/// One check with all that was measured.
[[nodiscard]] Result<StoredCheck> check(const Ledger& ledger, const Uuid& check_id,
                                        WithPartials with_partials = WithPartials::no);

/// The youngest check of a harp, when it has one.
[[nodiscard]] Result<std::optional<StoredCheck>> latest_check(const Ledger& ledger, const Uuid& harp_id);

/// The steps that all checks of a harp found, oldest check first: what drift and forecast are made from.
/// Of each check only header, a4_hz, steps and whole_steps are filled.
[[nodiscard]] Result<std::vector<StoredCheck>> step_history(const Ledger& ledger, const Uuid& harp_id);

} // namespace harpkeep::db
