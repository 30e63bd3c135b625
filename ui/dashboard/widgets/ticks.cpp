// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/ticks.hpp"

#include "base/expects.hpp"
#include "ui/dashboard/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

using namespace std::chrono;

struct Spacing {
    int months; // 0: days
    int days;
};
constexpr std::array<Spacing, 14> spacings{{{0, 1},
                                            {0, 2},
                                            {0, 7},
                                            {0, 14},
                                            {1, 0},
                                            {2, 0},
                                            {3, 0},
                                            {6, 0},
                                            {12, 0},
                                            {24, 0},
                                            {60, 0},
                                            {120, 0},
                                            {240, 0},
                                            {600, 0}}};

double length_days(Spacing spacing)
{
    return spacing.months > 0 ? spacing.months * 30.436875 : spacing.days; // mean Gregorian month
}

std::string month_label(year_month_day day, int months)
{
    if (months >= 12) return fmt::format("{}", static_cast<int>(day.year()));
    const char* name = text::short_months[static_cast<unsigned>(day.month()) - 1];
    if (day.month() == January) return fmt::format("{} {}", name, static_cast<int>(day.year()));
    return name;
}

std::vector<Tick> month_ticks(double low, double high, int months)
{
    const year_month_day first{sys_days{days{static_cast<int>(std::floor(low))}}};
    const int from =
        static_cast<int>(first.year()) * 12 + static_cast<int>(static_cast<unsigned>(first.month())) - 1;
    std::vector<Tick> ticks;
    for (int index = (from / months) * months;; index += months) {
        const year_month_day day{year{index / 12}, month{static_cast<unsigned>(index % 12) + 1},
                                 std::chrono::day{1}};
        const auto at = static_cast<double>(sys_days{day}.time_since_epoch().count());
        if (at > high) break;
        if (at >= low) ticks.push_back({at, month_label(day, months)});
    }
    return ticks;
}

} // namespace

std::vector<Tick> number_ticks(double low, double high, int most)
{
    HARPKEEP_EXPECTS(std::isfinite(low) && std::isfinite(high) && low < high && most >= 2);
    const double rough = (high - low) / most;
    double step = std::pow(10.0, std::floor(std::log10(rough)));
    for (const double factor : {1.0, 2.0, 5.0, 10.0})
        if (step * factor >= rough) {
            step *= factor;
            break;
        }
    const int decimals = std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
    std::vector<Tick> ticks;
    for (double k = std::ceil(low / step - 1e-9); k * step <= high + step * 1e-9; ++k) {
        const double at = k == 0.0 ? 0.0 : k * step;
        std::string label = fmt::format("{:.{}f}", std::abs(at), decimals);
        ticks.push_back({at, at < 0.0 ? "\u2212" + label : label});
    }
    return ticks;
}

std::vector<Tick> date_ticks(double low, double high, int most)
{
    HARPKEEP_EXPECTS(std::isfinite(low) && std::isfinite(high) && low < high && most >= 2);
    const auto fits = [&](Spacing spacing) { return (high - low) / length_days(spacing) <= most; };
    const auto found = std::find_if(spacings.begin(), spacings.end(), fits);
    const Spacing spacing = found == spacings.end() ? spacings.back() : *found;
    if (spacing.months > 0) return month_ticks(low, high, spacing.months);

    std::vector<Tick> ticks;
    for (double at = std::ceil(low / spacing.days) * spacing.days; at <= high; at += spacing.days) {
        const year_month_day day{sys_days{days{static_cast<int>(at)}}};
        ticks.push_back({at, fmt::format("{} {}", static_cast<unsigned>(day.day()),
                                         text::short_months[static_cast<unsigned>(day.month()) - 1])});
    }
    return ticks;
}

} // namespace harpkeep::dashboard
