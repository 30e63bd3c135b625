// SPDX-License-Identifier: MIT
#pragma once

#include "records/harp_record.hpp"
#include "records/spare_record.hpp"
#include "records/string_record.hpp"
#include "report/document.hpp"

#include <vector>

namespace harpkeep::report {

/// What the card is made from.
struct StringCardInput {
    HarpRecord harp;
    Date today;
    std::vector<PlannedStringRecord> plan;
    std::vector<StringLife> strings; ///< all that are or were on
    std::vector<SpareStock> stock;
};

/// A card for the harp's case, top string first: which string belongs where, how many spares there are, since
/// when each is on, and a column to note the next change by hand.
[[nodiscard]] Document string_card(const StringCardInput& input);

} // namespace harpkeep::report
