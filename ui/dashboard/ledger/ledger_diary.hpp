// SPDX-License-Identifier: MIT
#pragma once

#include "reason/tolerance.hpp"
#include "records/check_record.hpp"
#include "records/climate_record.hpp"
#include "records/harp_record.hpp"
#include "records/loan_record.hpp"
#include "records/note_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "ui/dashboard/models/climate_model.hpp"
#include "ui/dashboard/models/room_model.hpp"
#include "ui/dashboard/models/visits_model.hpp"
#include "upkeep/due_work.hpp"

#include <map>
#include <vector>

namespace harpkeep::dashboard {

/// What is known of a harp, as far as work follows from it.
[[nodiscard]] HarpUpkeep upkeep_of(const HarpRecord& harp, const std::vector<VisitRecord>& visits,
                                   std::optional<Date> last_check, const std::vector<StringLife>& lives,
                                   const std::vector<LoanRecord>& loans);

/// How many steps of a check are proven out of tolerance.
[[nodiscard]] int steps_out(const CheckResult& result, const ToleranceSettings& tolerance);

struct VisitsFacts {
    HarpRecord harp;
    std::vector<VisitRecord> visits;  ///< oldest first
    std::vector<CheckSummary> checks; ///< youngest first
    std::map<Uuid, int> out_in_check; ///< steps out, for the checks around visits
    std::vector<StringLife> lives;
    std::vector<LoanRecord> loans;
    std::vector<DueItem> due;      ///< of this harp, soonest first
    std::vector<NoteRecord> notes; ///< about this harp, oldest first
    Date today;
};
[[nodiscard]] VisitsModel visits_from(const VisitsFacts& facts);

[[nodiscard]] ClimateModel climate_from(const std::string& place, const std::vector<ClimateSample>& samples,
                                        Date today);

/// One harp of the room.
struct RoomFacts {
    HarpRecord harp;
    std::string room;
    std::vector<LoanRecord> loans; ///< oldest first; the last may be out
    std::optional<StoredCheck> check;
    std::optional<Date> last_visit;
    std::optional<DueItem> due;        ///< the soonest
    std::int64_t cost_minor_units = 0; ///< in the last twelve months, strings and visits
    std::string currency;
    int strings_at_risk = 0;
    ToleranceSettings tolerance;
};
[[nodiscard]] RoomRow room_row_from(const RoomFacts& facts);

} // namespace harpkeep::dashboard
