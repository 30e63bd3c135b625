// SPDX-License-Identifier: MIT
#include "reason/spare_need.hpp"

#include "base/expects.hpp"
#include "stats/renewal.hpp"

#include <algorithm>
#include <map>
#include <unordered_map>

namespace harpkeep {

namespace {

/// Longest count of one kind that is told apart; more is "that many or more".
constexpr std::size_t longest_count = 400;

std::size_t index_of(const std::vector<std::string>& kinds, const std::string& name)
{
    const auto found = std::find(kinds.begin(), kinds.end(), name);
    HARPKEEP_EXPECTS(found != kinds.end());
    return static_cast<std::size_t>(found - kinds.begin());
}

/// Drops a tail too thin to matter, and gathers it in the last count, so that sums stay short.
stats::CountDistribution trimmed(stats::CountDistribution counts)
{
    double tail = 0.0;
    while (counts.size() > 1 && tail + counts.back() < 1e-9) {
        tail += counts.back();
        counts.pop_back();
    }
    counts.back() += tail;
    return counts;
}

/// Breaks of one string place of one group by the age of the string that is there now. Strings that were put
/// on together share an answer.
class CountsByAge {
  public:
    CountsByAge(const stats::WeibullLife& life, double days) : counts_(life, days) {}

    const stats::CountDistribution& at(const stats::LogSteps& steps)
    {
        const auto kept = kept_.find(&steps);
        if (kept != kept_.end()) return kept->second;
        return kept_.emplace(&steps, trimmed(counts_.starting_at(steps))).first->second;
    }

  private:
    stats::FailureCounts counts_;
    std::unordered_map<const stats::LogSteps*, stats::CountDistribution> kept_;
};

} // namespace

stats::CountDistribution SpareNeed::mixed(std::size_t kind) const
{
    stats::CountDistribution sum;
    for (const auto& scenario : counts) {
        const auto& one = scenario[kind];
        if (one.size() > sum.size()) sum.resize(one.size(), 0.0);
        for (std::size_t n = 0; n < one.size(); ++n) sum[n] += one[n] / static_cast<double>(counts.size());
    }
    return sum;
}

SpareNeed spare_need(const LifeModel& model, std::span<const StringInUse> strings,
                     std::vector<std::string> kinds, double days, int scenarios)
{
    HARPKEEP_EXPECTS(days > 0.0 && scenarios > 0);
    struct Asked {
        std::size_t kind, group;
        const stats::LogSteps* steps; ///< one for each age
    };
    std::map<double, stats::LogSteps> ages;
    std::vector<Asked> asked;
    for (const auto& string : strings) {
        const double age = string.least_age_days();
        const auto [steps, fresh] = ages.try_emplace(age);
        if (fresh) steps->second = stats::log_steps(age, days);
        asked.push_back({index_of(kinds, string.kind), model.group_of(string), &steps->second});
    }

    SpareNeed need{.kinds = std::move(kinds), .counts = {}};
    const auto& all = model.lives.scenarios;
    const std::size_t wanted = std::min(all.size(), static_cast<std::size_t>(scenarios));
    for (std::size_t s = 0; s < wanted; ++s) {
        const auto& scenario =
            all[(2 * s + 1) * all.size() / (2 * wanted)]; // evenly, as they are sorted by shape
        std::map<std::size_t, CountsByAge> by_group;
        std::vector<stats::CountDistribution> counts(need.kinds.size(), stats::CountDistribution{1.0});
        for (const auto& string : asked) {
            auto found = by_group.find(string.group);
            if (found == by_group.end()) {
                const stats::WeibullLife life{scenario.shape, scenario.scales[string.group]};
                found = by_group.emplace(string.group, CountsByAge{life, days}).first;
            }
            counts[string.kind] =
                trimmed(stats::sum_of(counts[string.kind], found->second.at(*string.steps), longest_count));
        }
        need.counts.push_back(std::move(counts));
    }
    return need;
}

} // namespace harpkeep
