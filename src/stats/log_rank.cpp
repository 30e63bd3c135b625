// SPDX-License-Identifier: MIT
#include "stats/log_rank.hpp"

#include "base/expects.hpp"

#include <Eigen/Dense>
#include <boost/math/distributions/chi_squared.hpp>

#include <algorithm>
#include <set>

namespace harpkeep::stats {

namespace {

/// Numbers at risk and failing in each group at one age.
struct RiskSet {
    Eigen::VectorXd at_risk, failures;

    RiskSet(std::span<const std::vector<LifeObservation>> groups, double time)
        : at_risk(Eigen::VectorXd::Zero(static_cast<Eigen::Index>(groups.size()))), failures(at_risk)
    {
        for (Eigen::Index g = 0; g < at_risk.size(); ++g)
            for (const auto& life : groups[static_cast<std::size_t>(g)]) {
                if (life.entry < time && time <= life.exit) at_risk(g) += 1.0;
                if (life.failed && life.exit == time) failures(g) += 1.0;
            }
    }
};

} // namespace

std::optional<LogRank> log_rank(std::span<const std::vector<LifeObservation>> groups)
{
    std::set<double> times;
    for (const auto& group : groups) {
        HARPKEEP_EXPECTS(well_formed(group));
        for (const auto& life : group)
            if (life.failed) times.insert(life.exit);
    }
    const auto size = static_cast<Eigen::Index>(groups.size());
    if (times.empty() || size < 2) return std::nullopt;
    Eigen::VectorXd observed = Eigen::VectorXd::Zero(size), expected = observed;
    Eigen::MatrixXd covariance = Eigen::MatrixXd::Zero(size, size);
    for (const double time : times) {
        const RiskSet set{groups, time};
        const double n = set.at_risk.sum(), d = set.failures.sum();
        const Eigen::VectorXd share = set.at_risk / n;
        observed += set.failures;
        expected += d * share;
        if (n < 2.0) continue;
        // multivariate hypergeometric: d (n - d) / (n - 1) (diag(p) - p p')
        const Eigen::MatrixXd diagonal = share.asDiagonal();
        covariance += d * (n - d) / (n - 1.0) * (diagonal - share * share.transpose());
    }
    // The covariance has rank groups - 1, or less when some groups never met: its pseudo-inverse fits both.
    const Eigen::CompleteOrthogonalDecomposition<Eigen::MatrixXd> decomposition(covariance);
    const auto rank = static_cast<int>(decomposition.rank());
    if (rank == 0 || covariance.norm() == 0.0) return std::nullopt;
    const Eigen::VectorXd difference = observed - expected;
    LogRank result{.chi_squared = difference.dot(decomposition.solve(difference)),
                   .degrees_of_freedom = rank};
    result.p_value = boost::math::cdf(
        boost::math::complement(boost::math::chi_squared(rank), std::max(result.chi_squared, 0.0)));
    result.observed.assign(observed.data(), observed.data() + size);
    result.expected.assign(expected.data(), expected.data() + size);
    return result;
}

} // namespace harpkeep::stats
