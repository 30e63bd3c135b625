// SPDX-License-Identifier: MIT
#include "reason/break_clusters.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace harpkeep {

namespace {

/// Strings of one place (or harp) that belong to one group.
struct Share {
    std::size_t group = 0;
    int breaks = 0;
    std::vector<const ObservedString*> strings;
    double power_sum = 0.0; ///< of ages in days at the shape that is looked at
};

struct Spot {
    BreakCluster cluster;
    std::map<std::size_t, Share> shares;
    std::map<std::string, int> break_points;
};

using SpotKey = std::pair<std::string, int>;

std::map<SpotKey, Spot> spots_of(const LifeModel& model, std::span<const ObservedString> strings,
                                 ClusterKey key)
{
    std::map<SpotKey, Spot> spots;
    for (const auto& string : strings) {
        const bool by_place = key == ClusterKey::place;
        auto& spot = spots[{string.harp, by_place ? string.place.diatonic_index() : 0}];
        spot.cluster.harp = string.harp;
        if (by_place) spot.cluster.place = string.place;
        ++spot.cluster.strings;
        const auto group =
            model.group_of({.harp = string.harp, .place = string.place, .material = string.material});
        HARPKEEP_EXPECTS(group < model.lives.unseen()); // the model was learnt from these strings
        auto& share = spot.shares[group];
        share.group = group;
        share.strings.push_back(&string);
        if (!string.broke) continue;
        ++share.breaks;
        ++spot.cluster.breaks;
        if (!string.broke_at.empty()) ++spot.break_points[string.broke_at];
    }
    return spots;
}

/// Many scenarios share one shape: what the ages give is summed once for each.
void sum_powers(std::map<SpotKey, Spot>& spots, double shape)
{
    for (auto& [key, spot] : spots)
        for (auto& [group, share] : spot.shares) {
            share.power_sum = 0.0;
            for (const auto* string : share.strings)
                share.power_sum +=
                    std::pow(string->age_at_exit_days, shape) -
                    (string->age_at_entry_days > 0.0 ? std::pow(string->age_at_entry_days, shape) : 0.0);
        }
}

/// Breaks that strings would have had if theirs were a typical group.
///
/// Given  share  with its sum of powers at the scenario's shape
double typical_breaks(const Share& share, const stats::LifeScenario& scenario)
{
    return share.power_sum * std::pow(scenario.typical_scale, -scenario.shape);
}

/// Typical breaks of every group, for one scenario.
std::vector<double> typical_breaks_by_group(const std::map<SpotKey, Spot>& spots, std::size_t groups,
                                            const stats::LifeScenario& scenario)
{
    std::vector<double> sums(groups, 0.0);
    for (const auto& [key, spot] : spots)
        for (const auto& [group, share] : spot.shares) sums[group] += typical_breaks(share, scenario);
    return sums;
}

/// Chances of 0 .. below breaks of one share: a Poisson count whose mean is gamma-distributed with what the
/// rest of the group tells (negative binomial).
std::vector<double> share_counts(double shape, double rate, double typical, int below)
{
    std::vector<double> counts(static_cast<std::size_t>(below), 0.0);
    const double odds = typical / (rate + typical);
    double term = std::pow(rate / (rate + typical), shape);
    for (int n = 0; n < below; ++n) {
        counts[static_cast<std::size_t>(n)] = term;
        term *= (shape + n) / (n + 1.0) * odds;
    }
    return counts;
}

/// Adds to the cluster what one scenario expects and how likely it holds so many breaks.
void add_scenario(Spot& spot, const LifeModel& model, const stats::LifeScenario& scenario,
                  const std::vector<double>& group_typical, double weight)
{
    const int breaks = spot.cluster.breaks;
    std::vector<double> below(static_cast<std::size_t>(breaks), 0.0);
    below[0] = 1.0;
    for (const auto& [group, share] : spot.shares) {
        const double typical = typical_breaks(share, scenario);
        const double shape = scenario.concentration + model.lives.evidence[group].failures - share.breaks;
        const double rate = scenario.concentration + std::max(0.0, group_typical[group] - typical);
        spot.cluster.expected_breaks += weight * shape / rate * typical;
        const auto counts = share_counts(shape, rate, typical, breaks);
        std::vector<double> sum(below.size(), 0.0);
        for (std::size_t i = 0; i < below.size(); ++i)
            for (std::size_t j = 0; i + j < below.size(); ++j) sum[i + j] += below[i] * counts[j];
        below = std::move(sum);
    }
    for (const double chance : below) spot.cluster.chance -= weight * chance;
}

std::string usual_break_point(const Spot& spot)
{
    const auto most = std::max_element(spot.break_points.begin(), spot.break_points.end(),
                                       [](const auto& a, const auto& b) { return a.second < b.second; });
    if (most == spot.break_points.end() || 2 * most->second < spot.cluster.breaks) return "";
    return most->first;
}

/// Holm's step-down correction of chances in rising order, among `looked_at` of which only these can be
/// small.
void correct(std::vector<BreakCluster>& clusters, int looked_at, double level)
{
    double running = 0.0;
    for (std::size_t i = 0; i < clusters.size(); ++i) {
        const double factor = looked_at - static_cast<double>(i);
        running = std::max(running, std::min(1.0, factor * clusters[i].chance));
        clusters[i].corrected_chance = running;
        clusters[i].beyond_chance = running < level;
    }
}

} // namespace

ClusterReport find_break_clusters(const LifeModel& model, std::span<const ObservedString> strings,
                                  ClusterKey key, double level)
{
    HARPKEEP_EXPECTS(level > 0.0 && level < 1.0);
    auto spots = spots_of(model, strings, key);
    // Every fourth scenario: they are strata in order of the shape, and the chance is a mean over them.
    constexpr std::size_t stride = 4;
    const double weight = 1.0 / std::ceil(static_cast<double>(model.lives.scenarios.size()) / stride);
    double summed_shape = 0.0; // no shape is
    for (std::size_t s = 0; s < model.lives.scenarios.size(); s += stride) {
        const auto& scenario = model.lives.scenarios[s];
        if (scenario.shape != summed_shape) sum_powers(spots, scenario.shape);
        summed_shape = scenario.shape;
        const auto group_typical = typical_breaks_by_group(spots, model.lives.unseen(), scenario);
        for (auto& [name, spot] : spots)
            if (spot.cluster.breaks >= 2) add_scenario(spot, model, scenario, group_typical, weight);
    }
    ClusterReport report{
        .key = key, .looked_at = static_cast<int>(spots.size()), .clusters = {}, .level = level};
    for (auto& [name, spot] : spots) {
        if (spot.cluster.breaks < 2) continue;
        spot.cluster.chance = std::max(spot.cluster.chance, 0.0);
        spot.cluster.usual_break_point = usual_break_point(spot);
        report.clusters.push_back(std::move(spot.cluster));
    }
    std::sort(report.clusters.begin(), report.clusters.end(),
              [](const auto& a, const auto& b) { return a.chance < b.chance; });
    correct(report.clusters, report.looked_at, level);
    return report;
}

} // namespace harpkeep
