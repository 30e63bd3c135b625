// SPDX-License-Identifier: MIT
#include "base/expects.hpp"
#include "stats/weibull.hpp"

#include <boost/math/special_functions/gamma.hpp>

#include <cmath>

namespace harpkeep::stats {

double weibull_survival(const WeibullLife& life, double age)
{
    return age <= 0.0 ? 1.0 : std::exp(-std::pow(age / life.scale, life.shape));
}

double weibull_quantile(const WeibullLife& life, double share)
{
    HARPKEEP_EXPECTS(share >= 0.0 && share < 1.0);
    return life.scale * std::pow(-std::log1p(-share), 1.0 / life.shape);
}

double weibull_mean(const WeibullLife& life)
{
    return life.scale * boost::math::tgamma(1.0 + 1.0 / life.shape);
}

double weibull_standard_deviation(const WeibullLife& life)
{
    const double first = boost::math::tgamma(1.0 + 1.0 / life.shape);
    return life.scale * std::sqrt(boost::math::tgamma(1.0 + 2.0 / life.shape) - first * first);
}

double weibull_failure_within(const WeibullLife& life, double age, double duration)
{
    HARPKEEP_EXPECTS(age >= 0.0 && duration >= 0.0);
    const double before = std::pow(age / life.scale, life.shape);
    const double after = std::pow((age + duration) / life.scale, life.shape);
    return -std::expm1(before - after);
}

} // namespace harpkeep::stats
