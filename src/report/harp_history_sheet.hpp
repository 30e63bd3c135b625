// SPDX-License-Identifier: MIT
#pragma once

#include "reason/harp_verdict.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/loan_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "report/document.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::report {

/// One thing that happened, in words.
struct HistoryEvent {
    Date on;
    std::string kind; ///< "check", "visit", "string", ...
    std::optional<StringPlace> place;
    std::string words;
};

/// What the history of a harp is made from.
struct HarpHistoryInput {
    HarpRecord harp;
    Date today;
    std::string room;
    std::vector<VisitRecord> visits;
    std::vector<StoredCheck> checks; ///< oldest first
    ToleranceSettings tolerances;
    HarpEvidence evidence; ///< of the youngest check
    std::vector<StringLife> strings;
    std::vector<LoanRecord> loans;
    std::vector<HistoryEvent> events; ///< all of them, oldest first
};

/// The life of a harp as the ledger knows it: for insurance, sale, or the hand-over at a loan.
[[nodiscard]] Document harp_history_sheet(const HarpHistoryInput& input);

} // namespace harpkeep::report
