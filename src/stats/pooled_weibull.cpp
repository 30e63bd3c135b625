// SPDX-License-Identifier: MIT
#include "stats/pooled_weibull.hpp"

#include "base/expects.hpp"
#include "stats/weibull_profile.hpp"

#include <boost/math/distributions/gamma.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <random>

namespace harpkeep::stats {

namespace {

/// One node of the numerical integration.
struct Node {
    double log_weight = 0.0;
    double shape = 1.0;
    double log_rate = 0.0; ///< of the typical group: failures for each (age / unit)^shape
    double concentration = 1.0;
};

/// What the likelihood needs of the groups at one shape.
struct AtShape {
    double shape = 1.0;
    double log_common = 0.0; ///< what depends on the shape alone, prior included
    std::vector<double> power_sums;
};

class Integration {
  public:
    Integration(std::span<const std::vector<LifeObservation>> groups, const PoolingPrior& prior)
        : prior_(prior)
    {
        double unit = 0.0;
        for (const auto& group : groups)
            for (const auto& life : group) unit = std::max(unit, life.exit);
        for (const auto& group : groups) {
            sums_.emplace_back(group, unit);
            failures_ += sums_.back().failures();
        }
    }

    [[nodiscard]] const std::vector<WeibullSums>& sums() const { return sums_; }
    [[nodiscard]] std::vector<Node> nodes() const;

  private:
    struct Mode {
        double log_rate, curvature;
    };
    [[nodiscard]] Mode mode_of(const AtShape& at, double concentration) const;
    [[nodiscard]] AtShape at_shape(double log_shape) const;
    void add_nodes(std::vector<Node>& nodes, double log_shape) const;
    void add_rates(std::vector<Node>& nodes, const AtShape& at, double concentration,
                   double log_weight) const;
    [[nodiscard]] double log_density(const AtShape& at, double concentration, double log_rate) const;
    [[nodiscard]] double log_of_multiples(double concentration) const;

    PoolingPrior prior_;
    std::vector<WeibullSums> sums_;
    double failures_ = 0.0;
    mutable std::map<double, double> multiples_; ///< log_of_multiples() by concentration
};

AtShape Integration::at_shape(double log_shape) const
{
    AtShape at{.shape = std::exp(log_shape), .log_common = 0.0, .power_sums = {}};
    for (const auto& group : sums_) {
        at.log_common += group.failures() * log_shape + (at.shape - 1.0) * group.log_failure_ages();
        at.power_sums.push_back(group.power_sum(at.shape));
    }
    const double z = (log_shape - std::log(prior_.shape_median)) / prior_.shape_log_sigma;
    at.log_common -= 0.5 * z * z;
    at.log_common -= log_shape; // flat in log scale means density 1 / shape in log rate
    return at;
}

/// Log of prod (1 + i/c) over the failures of every group. It is the same at each shape and rate, so that
/// each of the few concentrations is worked out once.
double Integration::log_of_multiples(double concentration) const
{
    const auto kept = multiples_.find(concentration);
    if (kept != multiples_.end()) return kept->second;
    double total = 0.0;
    for (const auto& group : sums_)
        for (int i = 1; i < group.failures(); ++i) total += std::log1p(i / concentration);
    multiples_.emplace(concentration, total);
    return total;
}

/// Likelihood with each group's multiple integrated out: prod (1 + i/c) rate^d (1 + rate W / c)^-(c + d).
double Integration::log_density(const AtShape& at, double concentration, double log_rate) const
{
    const double rate = std::exp(log_rate);
    double total = log_of_multiples(concentration);
    for (std::size_t g = 0; g < sums_.size(); ++g) {
        const int failures = sums_[g].failures();
        total += failures * log_rate -
                 (concentration + failures) * std::log1p(rate * at.power_sums[g] / concentration);
    }
    return total;
}

/// The log rate at which the density is highest, with its curvature there; it is log-concave.
Integration::Mode Integration::mode_of(const AtShape& at, double concentration) const
{
    Mode mode{.log_rate =
                  std::log(failures_ / std::accumulate(at.power_sums.begin(), at.power_sums.end(), 0.0)),
              .curvature = failures_};
    for (int iteration = 0; iteration < 50; ++iteration) { // Newton
        double slope = 0.0;
        mode.curvature = 0.0;
        for (std::size_t g = 0; g < sums_.size(); ++g) {
            const double ratio = std::exp(mode.log_rate) * at.power_sums[g] / concentration;
            const double pull = (concentration + sums_[g].failures()) * ratio / (1.0 + ratio);
            slope += sums_[g].failures() - pull;
            mode.curvature += pull / (1.0 + ratio);
        }
        const double step = std::clamp(slope / mode.curvature, -1.0, 1.0);
        mode.log_rate += step;
        if (std::abs(step) < 1e-8) break;
    }
    return mode;
}

/// Nodes in log rate by the trapezoid rule from the mode outwards, as far as the density reaches.
void Integration::add_rates(std::vector<Node>& nodes, const AtShape& at, double concentration,
                            double log_weight) const
{
    const auto mode = mode_of(at, concentration);
    const double top = log_density(at, concentration, mode.log_rate);
    // One flank can be as steep as the number of failures while the other runs out slowly: start with steps
    // fit for the steep one and let them grow.
    const double smallest = 0.5 / std::sqrt(failures_),
                 largest = std::max(smallest, 0.5 / std::sqrt(mode.curvature));
    constexpr double growth = 1.2;
    constexpr double negligible = 14.0; // e^-14 of the density at its mode
    constexpr int most = 300;
    const auto add = [&](double log_rate, double density, double width) {
        nodes.push_back({.log_weight = log_weight + at.log_common + density + std::log(width),
                         .shape = at.shape,
                         .log_rate = log_rate,
                         .concentration = concentration});
    };
    add(mode.log_rate, top, smallest);
    for (const double direction : {1.0, -1.0}) {
        double step = smallest, log_rate = mode.log_rate;
        for (int i = 0; i < most; ++i) {
            log_rate += direction * step;
            const double next = std::min(growth * step, largest);
            const double density = log_density(at, concentration, log_rate);
            if (density < top - negligible) break;
            add(log_rate, density, 0.5 * (step + next));
            step = next;
        }
    }
}

void Integration::add_nodes(std::vector<Node>& nodes, double log_shape) const
{
    constexpr int spreads = 24;
    constexpr double widest = 2.0; // spread of log rates; beyond, single groups could differ by e^8
    const auto at = at_shape(log_shape);
    for (int i = 0; i < spreads; ++i) {
        // denser towards 0, where groups are alike and the density changes fastest
        const double u = (i + 0.5) / spreads;
        const double spread = widest * u * u;
        const double width = 2.0 * widest * u / spreads;
        const double z = spread / prior_.spread_scale;
        add_rates(nodes, at, 1.0 / (spread * spread), std::log(width) - 0.5 * z * z);
    }
}

double highest_weight(const std::vector<Node>& nodes)
{
    return std::max_element(nodes.begin(), nodes.end(),
                            [](const Node& a, const Node& b) { return a.log_weight < b.log_weight; })
        ->log_weight;
}

std::vector<Node> Integration::nodes() const
{
    // A coarse pass over all shapes the prior allows finds where the weight lies, a fine one covers it.
    const double centre = std::log(prior_.shape_median), reach = 4.0 * prior_.shape_log_sigma;
    constexpr int coarse_nodes = 81, fine_nodes = 61;
    constexpr double negligible = 12.0;
    const double coarse_step = 2.0 * reach / (coarse_nodes - 1);
    std::vector<std::pair<double, double>> heights; // log shape, highest log weight there
    for (int i = 0; i < coarse_nodes; ++i) {
        std::vector<Node> here;
        add_rates(here, at_shape(centre - reach + i * coarse_step), 1.0, 0.0);
        heights.emplace_back(centre - reach + i * coarse_step, highest_weight(here));
    }
    const double top = std::max_element(heights.begin(), heights.end(), [](auto a, auto b) {
                           return a.second < b.second;
                       })->second;
    double low = centre + reach, high = centre - reach;
    for (const auto& [log_shape, height] : heights)
        if (height > top - negligible) {
            low = std::min(low, log_shape - coarse_step);
            high = std::max(high, log_shape + coarse_step);
        }
    std::vector<Node> nodes;
    for (int i = 0; i < fine_nodes; ++i) add_nodes(nodes, low + (high - low) * i / (fine_nodes - 1));
    return nodes;
}

/// `count` nodes, each as often as its weight asks for, in the order of the integration.
std::vector<Node> drawn(const std::vector<Node>& nodes, int count)
{
    const double top = highest_weight(nodes);
    double total = 0.0;
    for (const auto& node : nodes) total += std::exp(node.log_weight - top);
    std::vector<Node> chosen;
    double passed = 0.0;
    auto node = nodes.begin();
    for (int i = 0; i < count; ++i) {
        const double target = total * (i + 0.5) / count;
        while (std::next(node) != nodes.end() && passed + std::exp(node->log_weight - top) < target) {
            passed += std::exp(node->log_weight - top);
            ++node;
        }
        chosen.push_back(*node);
    }
    return chosen;
}

/// Middle points of `count` equal strata of (0, 1) in random order.
std::vector<double> shuffled_strata(int count, std::mt19937_64& random)
{
    std::vector<double> strata;
    for (int i = 0; i < count; ++i) strata.push_back((i + 0.5) / count);
    // written out, as std::shuffle may differ from library to library
    for (std::size_t i = strata.size() - 1; i > 0; --i) std::swap(strata[i], strata[random() % (i + 1)]);
    return strata;
}

} // namespace

Fitted<PooledLives> pool_lives(std::span<const std::vector<LifeObservation>> groups,
                               const PoolingSettings& settings)
{
    HARPKEEP_EXPECTS(settings.scenarios >= 10 && settings.prior.shape_median > 0.0 &&
                     settings.prior.shape_log_sigma > 0.0 && settings.prior.spread_scale > 0.0);
    PooledLives pooled;
    for (const auto& group : groups) {
        const auto evidence = evidence_of(group);
        pooled.evidence.push_back(evidence);
        pooled.total.observations += evidence.observations;
        pooled.total.failures += evidence.failures;
        pooled.total.exposure += evidence.exposure;
    }
    if (pooled.total.failures == 0) return tl::unexpected(NoFit::no_failures);

    const Integration integration{groups, settings.prior};
    const double unit = integration.sums().front().unit();
    const auto nodes = drawn(integration.nodes(), settings.scenarios);
    for (const auto& node : nodes)
        pooled.scenarios.push_back({.shape = node.shape,
                                    .scales = {},
                                    .typical_scale = unit * std::exp(-node.log_rate / node.shape),
                                    .concentration = node.concentration});
    std::mt19937_64 random{settings.seed};
    for (std::size_t g = 0; g <= groups.size(); ++g) {
        const auto strata = shuffled_strata(settings.scenarios, random);
        for (std::size_t i = 0; i < nodes.size(); ++i) {
            const bool seen = g < groups.size();
            const double failures = seen ? integration.sums()[g].failures() : 0.0;
            const double expected =
                seen ? std::exp(nodes[i].log_rate) * integration.sums()[g].power_sum(nodes[i].shape) : 0.0;
            const boost::math::gamma_distribution<> multiple(nodes[i].concentration + failures,
                                                             1.0 / (nodes[i].concentration + expected));
            pooled.scenarios[i].scales.push_back(
                pooled.scenarios[i].typical_scale *
                std::pow(boost::math::quantile(multiple, strata[i]), -1.0 / nodes[i].shape));
        }
    }
    return pooled;
}

} // namespace harpkeep::stats
