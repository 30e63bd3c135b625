// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "reason/cause_text.hpp"
#include "reason/drift.hpp"
#include "reason/harp_verdict.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "units/date.hpp"

#include <map>
#include <optional>
#include <vector>

namespace harpkeep::ui {

/// What the ledger holds about one harp, as far as reasoning wants it.
struct HarpKnowledge {
    HarpRecord harp;
    ToleranceSettings tolerances;
    std::optional<StoredCheck> check; ///< the one to judge: the youngest, or the one asked for; with partials
    std::vector<StoredCheck> history; ///< oldest first, steps only
    std::map<Uuid, double> humidity_percent; ///< at checks: noted with the check, or measured within 12 hours
    std::vector<VisitRecord> visits;
    std::vector<StringLife> strings;
    std::vector<PlannedStringRecord> plan;
};

/// Reads it.
///
/// Given  check_id  nothing: the youngest check
///        until_day what came after this day is not known then; nothing: all that is in the ledger
[[nodiscard]] Result<HarpKnowledge> harp_knowledge(const db::Ledger& ledger, const HarpRecord& harp,
                                                   const std::optional<Uuid>& check_id = std::nullopt,
                                                   std::optional<int> until_day = std::nullopt);

/// The day of a check as the numbers of reason count days: since 1970-01-01, local.
[[nodiscard]] int day_of(const StoredCheck& check);

/// How old each string was on that day, where the day it was put on is known.
[[nodiscard]] std::vector<StringAge> string_ages(const HarpKnowledge& knowledge, int day);

/// Lengths of open strings from the stringing plan.
[[nodiscard]] OpenLengths open_lengths(const HarpKnowledge& knowledge);

/// Histories of all steps, and the events after which they may stand elsewhere.
struct DriftInput {
    std::vector<StepHistory> histories;
    std::vector<HarpEvent> events;
};
[[nodiscard]] DriftInput drift_input(const HarpKnowledge& knowledge);

/// Everything that speaks for or against calling the technician, from the check that is judged.
///
/// Given  today  days since 1970-01-01
///        fit    the drift as fitted to drift_input() before, which takes long; nullptr: it is fitted here
[[nodiscard]] HarpEvidence harp_evidence(const HarpKnowledge& knowledge, int today,
                                         const std::optional<DriftFit>* fit = nullptr);

} // namespace harpkeep::ui
