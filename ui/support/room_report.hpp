// SPDX-License-Identifier: MIT
#pragma once

#include "records/climate_record.hpp"
#include "ui/support/harp_report.hpp"

#include <string>
#include <vector>

namespace harpkeep::ui {

/// The sheet of a room, or of the whole school, for the days asked for.
[[nodiscard]] Result<report::Document> room_report(const db::Ledger& ledger, const ReportRequest& request,
                                                   const ReportProgress& progress = {});

/// The room in which a harp stands on a day; empty when it stands in none.
[[nodiscard]] Result<std::string> room_of(const db::Ledger& ledger, const Uuid& harp_id, Date day);

/// The air around a harp on these days, both included.
[[nodiscard]] Result<std::vector<ClimateSample>> climate_between(const db::Ledger& ledger,
                                                                 const Uuid& harp_id, Date from, Date until);

} // namespace harpkeep::ui
