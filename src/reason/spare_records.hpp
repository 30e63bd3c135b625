// SPDX-License-Identifier: MIT
#pragma once

#include "reason/spare_plan.hpp"
#include "reason/string_history.hpp"
#include "records/harp_record.hpp"
#include "records/spare_record.hpp"

#include <span>
#include <vector>

namespace harpkeep {

/// Strings in use with their kinds, and the kinds with stock and price, as spares are planned from.
struct SpareSituation {
    std::vector<StringInUse> in_use;
    std::vector<SpareKind> kinds;
};

/// Matches the stock with the strings in use.
///
/// Given      strings in use with the kinds that string_history() gave them; stock, and its movements, oldest
/// first;
///            strings ever put on, for what they cost
/// Notes      A string kept for one harp serves that harp only: a harp that has some of a kind of its own is
/// planned
///            with these, apart from the rest. The price of a kind is that of its youngest purchase with a
///            known cost, or else of the youngest string of that kind put on with one.
[[nodiscard]] SpareSituation spare_situation(std::span<const StringInUse> in_use,
                                             std::span<const SpareStock> stock,
                                             std::span<const SpareMovementRecord> movements,
                                             std::span<const StringLife> lives,
                                             std::span<const HarpRecord> harps);

} // namespace harpkeep
