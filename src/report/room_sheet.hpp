// SPDX-License-Identifier: MIT
#pragma once

#include "reason/harp_verdict.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/loan_record.hpp"
#include "records/spare_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "report/climate_overview.hpp"
#include "report/document.hpp"
#include "upkeep/due_work.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::report {

/// A time in which a harp stood in the room; both days included.
struct Stay {
    Date from;
    Date until;
};

/// One harp with what is known of it, of any time.
struct RoomHarp {
    HarpRecord harp;
    std::vector<Stay> stays; ///< within the year
    std::vector<VisitRecord> visits;
    std::vector<StoredCheck> checks; ///< oldest first
    std::vector<StringLife> strings;
    std::vector<LoanRecord> loans;
    HarpEvidence evidence; ///< of the youngest check
    std::vector<DueItem> due;
};

struct RoomSheetInput {
    std::string room; ///< empty: the whole school
    std::string remarks;
    Date from; ///< first and last day of the year spoken of
    Date until;
    Date today;
    std::vector<RoomHarp> harps;
    std::vector<ClimateSample> climate;      ///< of the room
    std::vector<SpareMovementRecord> spares; ///< movements of the whole school, shown on its sheet only
};

/// What happened to the harps of a room in a school year, what it cost, and what is due.
///
/// Notes  What happened while a harp stood elsewhere is left to that room's sheet. Costs of strings are those
///        noted when they were put on; spares bought are named beside, not added, as strings may come from
///        them.
[[nodiscard]] Document room_sheet(const RoomSheetInput& input);

} // namespace harpkeep::report
