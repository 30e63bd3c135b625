// SPDX-License-Identifier: MIT
#include "tests/support/interval_cell.hpp"

#include "base/expects.hpp"
#include "stats/quantiles.hpp"

#include <boost/math/distributions/binomial.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::tests {

namespace {

constexpr double tail = 0.025;
constexpr double normal_half_width = 1.959963984540054;    // 95 %
constexpr double normal_median_error = 0.6744897501960817; // 50 %

double rms_of(const std::vector<double>& values)
{
    double square = 0.0;
    for (const double value : values) square += value * value;
    return std::sqrt(square / static_cast<double>(values.size()));
}

double quantile_of(std::vector<double> values, double share)
{
    for (double& value : values) value = std::abs(value);
    const auto at =
        std::min(values.size() - 1, static_cast<std::size_t>(share * static_cast<double>(values.size())));
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(at), values.end());
    return values[at];
}

} // namespace

ShareWithLimits share_with_limits(std::size_t successes, std::size_t count)
{
    HARPKEEP_EXPECTS(successes <= count);
    if (count == 0) return {};
    using boost::math::binomial;
    const double n = static_cast<double>(count), k = static_cast<double>(successes);
    return {.share = k / n,
            .low = binomial::find_lower_bound_on_p(n, k, tail),
            .high = binomial::find_upper_bound_on_p(n, k, tail)};
}

void IntervalCell::add(double error_cents, double uncertainty_cents, double degrees_of_freedom)
{
    errors_cents_.push_back(error_cents);
    half_widths_cents_.push_back(stats::coverage_factor(0.95, degrees_of_freedom) * uncertainty_cents);
}

void IntervalCell::add(const IntervalCell& other)
{
    const auto append = [](auto& to, const auto& from) { to.insert(to.end(), from.begin(), from.end()); };
    append(errors_cents_, other.errors_cents_);
    append(half_widths_cents_, other.half_widths_cents_);
}

ShareWithLimits IntervalCell::coverage() const
{
    std::size_t held = 0;
    for (std::size_t i = 0; i < count(); ++i) held += std::abs(errors_cents_[i]) <= half_widths_cents_[i];
    return share_with_limits(held, count());
}

double IntervalCell::rms_error_cents() const
{
    return count() == 0 ? 0.0 : rms_of(errors_cents_);
}

double IntervalCell::quantile_cents(double share) const
{
    return count() == 0 ? 0.0 : quantile_of(errors_cents_, share);
}

double IntervalCell::width_ratio() const
{
    return count() == 0 ? 0.0 : rms_of(half_widths_cents_) / (normal_half_width * rms_of(errors_cents_));
}

double IntervalCell::median_width_ratio() const
{
    if (count() == 0) return 0.0;
    return quantile_of(half_widths_cents_, 0.5) * normal_median_error /
           (normal_half_width * quantile_of(errors_cents_, 0.5));
}

std::string interval_head()
{
    return fmt::format("{:>6}{:>9}{:>8}{:>9}   {:<22}{:>7}{:>9}", "count", "median", "95 %", "rms",
                       "holds (limits)", "width", "median");
}

std::string interval_row(const IntervalCell& cell)
{
    const ShareWithLimits held = cell.coverage();
    return fmt::format("{:>6}{:>9.3f}{:>8.3f}{:>9.3f}   {:<22}{:>7.2f}{:>9.2f}", cell.count(),
                       cell.quantile_cents(0.5), cell.quantile_cents(0.95), cell.rms_error_cents(),
                       fmt::format("{:.3f} ({:.3f} to {:.3f})", held.share, held.low, held.high),
                       cell.width_ratio(), cell.median_width_ratio());
}

} // namespace harpkeep::tests
