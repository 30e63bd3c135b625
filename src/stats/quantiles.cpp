// SPDX-License-Identifier: MIT
#include "stats/quantiles.hpp"

#include "base/expects.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <cmath>
#include <numbers>

namespace harpkeep::stats {

namespace {

/// Above this Student and normal agree to 1e-9 in the quantiles used here; it also takes in infinity.
constexpr double as_good_as_normal = 1e8;

} // namespace

double normal_probability(double z)
{
    return 0.5 * std::erfc(-z / std::numbers::sqrt2); // boost's cdf() is the same, in long double
}

double normal_quantile(double p)
{
    HARPKEEP_EXPECTS(p > 0.0 && p < 1.0);
    return boost::math::quantile(boost::math::normal{}, p);
}

double student_probability(double t, double degrees_of_freedom)
{
    HARPKEEP_EXPECTS(degrees_of_freedom > 0.0);
    if (degrees_of_freedom > as_good_as_normal) return normal_probability(t);
    return boost::math::cdf(boost::math::students_t{degrees_of_freedom}, t);
}

double student_quantile(double p, double degrees_of_freedom)
{
    HARPKEEP_EXPECTS(p > 0.0 && p < 1.0);
    HARPKEEP_EXPECTS(degrees_of_freedom > 0.0);
    if (degrees_of_freedom > as_good_as_normal) return normal_quantile(p);
    return boost::math::quantile(boost::math::students_t{degrees_of_freedom}, p);
}

double coverage_factor(double coverage, double degrees_of_freedom)
{
    return student_quantile(0.5 + 0.5 * coverage, degrees_of_freedom);
}

double chi_square_probability(double x, double degrees_of_freedom)
{
    HARPKEEP_EXPECTS(x >= 0.0 && degrees_of_freedom > 0.0);
    return boost::math::cdf(boost::math::chi_squared{degrees_of_freedom}, x);
}

} // namespace harpkeep::stats
