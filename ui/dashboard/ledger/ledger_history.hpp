// SPDX-License-Identifier: MIT
#pragma once

#include "reason/drift.hpp"
#include "reason/tolerance.hpp"
#include "records/check_record.hpp"
#include "records/harp_record.hpp"
#include "records/string_record.hpp"
#include "records/visit_record.hpp"
#include "ui/dashboard/models/history_model.hpp"

#include <memory>
#include <vector>

namespace harpkeep::dashboard {

/// What a harp's history is made from.
struct HistoryFacts {
    HarpRecord harp;
    std::vector<StoredCheck> checks; ///< oldest first, steps only
    std::vector<VisitRecord> visits;
    std::vector<StringLife> lives;
    ToleranceSettings tolerance;
    Date today;
};

/// The drift of all steps of a harp; costly, so it is kept while the ledger stays as it is.
[[nodiscard]] std::optional<DriftFit> fit_history(const HistoryFacts& facts);

/// The page of history for one choice. `fit` may be nothing.
[[nodiscard]] HistoryModel history_from(const HistoryFacts& facts, const std::optional<DriftFit>& fit,
                                        const HistoryChoice& choice, int before, int after);

} // namespace harpkeep::dashboard
