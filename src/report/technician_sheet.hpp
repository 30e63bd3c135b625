// SPDX-License-Identifier: MIT
#pragma once

#include "reason/cause_text.hpp"
#include "reason/harp_verdict.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/note_record.hpp"
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

/// What the technician's sheet is made from.
struct TechnicianSheetInput {
    HarpRecord harp;
    Date today;
    std::string room; ///< where it stands; may be empty
    std::vector<VisitRecord> visits;
    std::optional<StoredCheck> check;
    HarpEvidence evidence; ///< of that check
    ToleranceSettings tolerances;
    OpenLengths lengths;
    ClimateOverview climate;
    std::vector<StringLife> strings; ///< all that are or were on
    std::vector<NoteRecord> notes;
    std::vector<DueItem> due; ///< until today
    std::vector<SpareStock> stock;
};

/// What a technician wants to know before and at a visit, in the order of the work: strings, pedals, grip,
/// then intonation with the natural before the sharp (common practice). It says what was measured, never what
/// to turn.
///
/// Notes  Two pages at most: of more strings than fit the worst stand with their figures and the others are
/// named;
///        long notes are shortened. Programs get all.
[[nodiscard]] Document technician_sheet(const TechnicianSheetInput& input);

/// The part of it about the two steps of each string, and of each pedal.
[[nodiscard]] Section pedal_section(const TechnicianSheetInput& input);
[[nodiscard]] Section intonation_section(const TechnicianSheetInput& input);

} // namespace harpkeep::report
