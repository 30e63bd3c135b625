// SPDX-License-Identifier: MIT
#include "units/format.hpp"

#include <fmt/format.h>

#include <cmath>

namespace harpkeep {

namespace {

constexpr const char* minus_sign = "\u2212";

std::string with_minus_sign(std::string text)
{
    if (!text.empty() && text.front() == '-') text.replace(0, 1, minus_sign);
    return text;
}

double rounded(double value, int decimals)
{
    const double scale = std::pow(10.0, decimals);
    return std::round(value * scale) / scale + 0.0; // never -0
}

} // namespace

std::string format_signed(double value, int decimals)
{
    const double shown = rounded(value, decimals);
    if (shown == 0.0) return fmt::format("{:.{}f}", 0.0, decimals);
    return with_minus_sign(fmt::format("{:+.{}f}", shown, decimals));
}

std::string format_cents(Cents value, int decimals)
{
    return format_signed(value.value(), decimals);
}

std::string format_cents(Cents value, Cents uncertainty, int decimals)
{
    const double shown = rounded(uncertainty.value(), decimals);
    const std::string size = shown > 0.0 ? fmt::format("{:.{}f}", shown, decimals)
                                         : fmt::format("<{:.{}f}", std::pow(10.0, -decimals), decimals);
    return fmt::format("{} \u00B1 {}", format_cents(value, decimals), size);
}

std::string format_hertz(Hertz value, int decimals)
{
    return fmt::format("{:.{}f} Hz", value.value(), decimals);
}

std::string format_decibels(Decibels value)
{
    return with_minus_sign(fmt::format("{:.0f} dB", rounded(value.value(), 0)));
}

std::string format_duration(Seconds value)
{
    const double seconds = std::round(value.value());
    if (seconds < 90.0) return fmt::format("{:.0f} s", seconds);
    const auto minutes = static_cast<long>(std::lround(value.value() / 60.0));
    if (minutes < 120) return fmt::format("{} min", minutes);
    return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

} // namespace harpkeep
