// SPDX-License-Identifier: MIT
#include "units/format_amount.hpp"

#include <fmt/format.h>

#include <cmath>

namespace harpkeep {

namespace {

constexpr double days_per_month = 365.25 / 12.0;

/// A percentage without its sign.
std::string percent_digits(double share)
{
    const double percent = 100.0 * share;
    if (percent < 0.1) return percent <= 0.0 ? "0" : "under 0.1";
    return percent < 9.95 ? fmt::format("{:.1f}", percent) : fmt::format("{:.0f}", percent);
}

std::string probability_digits(double probability)
{
    if (probability < 0.001) return "under 0.1";
    if (probability > 0.999) return "over 99.9";
    return probability > 0.99 ? fmt::format("{:.1f}", 100.0 * probability) : percent_digits(probability);
}

std::string range(const std::string& lower, const std::string& upper)
{
    return lower == upper ? upper + " %" : lower + " to " + upper + " %";
}

struct Span {
    std::string digits;
    std::string unit;
};

Span span_of(double days)
{
    if (!(days < 100.0 * 365.25)) return {"over 100", "years"};
    if (days >= 730.0) return {fmt::format("{:.1f}", days / 365.25), "years"};
    if (days >= 60.0) return {fmt::format("{:.0f}", days / days_per_month), "months"};
    if (days >= 1.0) return {fmt::format("{:.0f}", days), std::round(days) == 1.0 ? "day" : "days"};
    return {"under 1", "day"};
}

} // namespace

std::string percent_text(double share)
{
    return percent_digits(share) + " %";
}

std::string probability_text(double probability)
{
    return probability_digits(probability) + " %";
}

std::string percent_range_text(double lower_share, double upper_share)
{
    return range(percent_digits(lower_share), percent_digits(upper_share));
}

std::string probability_range_text(double lower, double upper)
{
    return range(probability_digits(lower), probability_digits(upper));
}

std::string span_text(double days)
{
    const auto span = span_of(days);
    return span.digits + " " + span.unit;
}

std::string span_range_text(double lower_days, double upper_days)
{
    const auto lower = span_of(lower_days), upper = span_of(upper_days);
    if (lower.unit != upper.unit) return span_text(lower_days) + " to " + span_text(upper_days);
    if (lower.digits == upper.digits) return span_text(upper_days);
    return lower.digits + " to " + upper.digits + " " + upper.unit;
}

std::string count_text(double count)
{
    if (count > 0.0 && count < 0.05) return "under 0.1";
    return count < 9.95 ? fmt::format("{:.1f}", count) : fmt::format("{:.0f}", count);
}

std::string count_range_text(double lower, double upper)
{
    const auto low = count_text(lower), high = count_text(upper);
    return low == high ? high : low + " to " + high;
}

std::string counted(int count, const std::string& word)
{
    return fmt::format("{} {}{}", count, word, count == 1 ? "" : "s");
}

std::string newtons_text(Newtons force)
{
    const double n = force.value();
    if (std::abs(n) >= 1000.0) return fmt::format("{:.2f} kN", n / 1000.0);
    return std::abs(n) < 9.95 ? fmt::format("{:.1f} N", n) : fmt::format("{:.0f} N", n);
}

std::string megapascals_text(Megapascals stress)
{
    return fmt::format("{:.0f} MPa", stress.value());
}

std::string millimetres_text(Millimetres length)
{
    return length.value() < 20.0 ? fmt::format("{:.2f} mm", length.value())
                                 : fmt::format("{:.0f} mm", length.value());
}

std::string stiffness_text(NewtonsPerMillimetre stiffness)
{
    return fmt::format("{:.2f} N/mm", stiffness.value());
}

std::string mass_per_metre_text(KilogramsPerMetre mass)
{
    const double grams = 1e3 * mass.value();
    return grams < 9.95 ? fmt::format("{:.2f} g/m", grams) : fmt::format("{:.1f} g/m", grams);
}

} // namespace harpkeep
