// SPDX-License-Identifier: MIT
#pragma once

#include "reason/break_risk.hpp"
#include "stats/demand.hpp"

#include <span>
#include <string>
#include <vector>

namespace harpkeep {

/// How many strings of each kind break in a time, in each of a number of equally likely scenarios.
struct SpareNeed {
    std::vector<std::string> kinds;
    std::vector<std::vector<stats::CountDistribution>> counts; ///< by scenario, then by kind

    /// P(no more than `stock` of a kind are needed) in one scenario.
    [[nodiscard]] double covered(std::size_t scenario, std::size_t kind, int stock) const
    {
        return stats::chance_at_most(counts[scenario][kind], stock);
    }
    /// The counts of one kind over all scenarios.
    [[nodiscard]] stats::CountDistribution mixed(std::size_t kind) const;
};

/// Works out the need of every kind named, in `scenarios` of the model's scenarios evenly picked.
///
/// Given  every string's kind among `kinds`; days > 0
[[nodiscard]] SpareNeed spare_need(const LifeModel& model, std::span<const StringInUse> strings,
                                   std::vector<std::string> kinds, double days, int scenarios);

} // namespace harpkeep
