// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "records/climate_record.hpp"

#include <cstddef>
#include <vector>

namespace harpkeep::db {

/// Puts samples into the ledger, in one action. Samples of a moment that the room or harp has already are
/// left out, so that a logger's file can be read again after it has grown.
///
/// Returns  how many samples were new; nothing is written when none was
[[nodiscard]] Result<std::size_t> add_climate(Ledger& ledger, const Author& author,
                                              const ClimateSeries& series);

/// The series of all rooms and harps, oldest first.
[[nodiscard]] Result<std::vector<ClimateSummary>> climate_series(const Ledger& ledger);

/// The air around a harp in a time: its own samples, and those of the rooms it stood in while it stood there.
///
/// Given    from_utc_ms, until_utc_ms  both included
/// Returns  samples by time, one for each moment; or the means of the local days, at the first sample of each
enum class ClimateDetail { samples, days };
[[nodiscard]] Result<std::vector<ClimateSample>>
climate_of_harp(const Ledger& ledger, const Uuid& harp_id, std::int64_t from_utc_ms,
                std::int64_t until_utc_ms, ClimateDetail detail = ClimateDetail::samples);

/// The samples of a room in a time, as above.
[[nodiscard]] Result<std::vector<ClimateSample>> climate_of_room(const Ledger& ledger, const Uuid& room_id,
                                                                 std::int64_t from_utc_ms,
                                                                 std::int64_t until_utc_ms);

/// For each of some moments the same, from so long before it to so long after.
[[nodiscard]] Result<std::vector<std::vector<ClimateSample>>>
climate_around(const Ledger& ledger, const Uuid& harp_id, const std::vector<Moment>& moments,
               std::int64_t reach_ms);

} // namespace harpkeep::db
