// SPDX-License-Identifier: MIT
#pragma once

#include "reason/drift.hpp"
#include "ui/dashboard/models/history_model.hpp"
#include "ui/support/harp_knowledge.hpp"

#include <optional>

namespace harpkeep::dashboard {

/// The drift of all steps of a harp; costly, so it is kept while the ledger stays as it is.
[[nodiscard]] std::optional<DriftFit> fit_history(const ui::HarpKnowledge& knowledge);

/// The page of history for one choice. `fit` may be nothing.
[[nodiscard]] HistoryModel history_from(const ui::HarpKnowledge& knowledge,
                                        const std::optional<DriftFit>& fit, const HistoryChoice& choice,
                                        int before, int after, Date today);

} // namespace harpkeep::dashboard
