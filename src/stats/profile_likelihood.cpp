// SPDX-License-Identifier: MIT
#include "stats/profile_likelihood.hpp"

#include "base/expects.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <vector>

namespace harpkeep::stats {

namespace {

constexpr int double_bits = std::numeric_limits<double>::digits;

/// Where `drop` becomes positive going from `from` in steps that grow, or infinity in that direction.
double crossing(const std::function<double(double)>& drop, double from, double step, double reach)
{
    double inside = from, outside = from;
    do {
        if (std::abs(outside - from) >= reach)
            return std::copysign(std::numeric_limits<double>::infinity(), step);
        inside = outside;
        outside += step;
        step *= 1.6;
    } while (!(drop(outside) > 0.0));
    std::uintmax_t iterations = 200;
    const auto low = std::min(inside, outside), high = std::max(inside, outside);
    const auto bracket = boost::math::tools::toms748_solve(
        drop, low, high, boost::math::tools::eps_tolerance<double>(40), iterations);
    return 0.5 * (bracket.first + bracket.second);
}

} // namespace

Peak highest(const std::function<double(double)>& function, double low, double high, int nodes)
{
    HARPKEEP_EXPECTS(low < high && nodes >= 3);
    const double step = (high - low) / (nodes - 1);
    int best = 0;
    double best_value = -std::numeric_limits<double>::infinity();
    for (int node = 0; node < nodes; ++node) {
        const double value = function(low + node * step);
        if (value > best_value) {
            best_value = value;
            best = node;
        }
    }
    const double left = low + std::max(best - 1, 0) * step,
                 right = low + std::min(best + 1, nodes - 1) * step;
    const auto [at, negative] = boost::math::tools::brent_find_minima([&](double x) { return -function(x); },
                                                                      left, right, double_bits);
    const bool edge = (best == 0 && at - low < 1e-3 * step) || (best == nodes - 1 && high - at < 1e-3 * step);
    return {.at = at, .value = -negative, .on_edge = edge};
}

ConfidenceLimits profile_limits(const std::function<double(double)>& profile, double estimate, double maximum,
                                double confidence, double first_step, double reach)
{
    HARPKEEP_EXPECTS(confidence > 0.0 && confidence < 1.0 && first_step > 0.0 && reach > 0.0);
    const double allowed = 0.5 * boost::math::quantile(boost::math::chi_squared(1), confidence);
    const std::function<double(double)> drop = [&](double x) { return maximum - profile(x) - allowed; };
    return {.lower = crossing(drop, estimate, -first_step, reach),
            .upper = crossing(drop, estimate, first_step, reach),
            .confidence = confidence};
}

} // namespace harpkeep::stats
