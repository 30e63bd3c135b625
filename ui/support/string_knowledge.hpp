// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/ledger.hpp"
#include "reason/break_clusters.hpp"
#include "reason/spare_records.hpp"
#include "reason/string_history.hpp"
#include "reason/stringing_records.hpp"
#include "units/date.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::ui {

/// What the ledger holds about the strings of all harps, as far as reasoning wants it.
struct StringKnowledge {
    std::vector<HarpRecord> harps;
    std::vector<StringLife> lives;
    std::vector<SpareStock> stock; ///< as it is now, whatever day is spoken of
    std::vector<SpareMovementRecord> movements;
    Date today; ///< the day to speak of
    StringHistory history;
};

[[nodiscard]] Result<StringKnowledge> string_knowledge(const db::Ledger& ledger, Date today);

/// Strings on one harp, or on all when no name is given.
[[nodiscard]] std::vector<StringInUse> strings_on(const StringKnowledge& knowledge,
                                                  const std::string& harp_name);

/// What was learnt; unusable_input, with what the quiet time tells and what would suffice, while nothing has
/// broken.
[[nodiscard]] Result<LifeModel> learnt_lives(const StringKnowledge& knowledge,
                                             LifeGrouping grouping = LifeGrouping::octave_and_material);

/// Places and harps where strings break too often; empty while nothing can be learnt.
[[nodiscard]] std::vector<ClusterReport> break_clusters(const StringKnowledge& knowledge);

[[nodiscard]] SpareSituation spare_situation(const StringKnowledge& knowledge);

/// The stringing of a harp by its plan in the ledger.
[[nodiscard]] Result<RecordedStringing> recorded_stringing(const db::Ledger& ledger, const HarpRecord& harp,
                                                           Hertz a4);

} // namespace harpkeep::ui
