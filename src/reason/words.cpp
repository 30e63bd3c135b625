// SPDX-License-Identifier: MIT
#include "reason/words.hpp"

#include "stats/quantiles.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <cmath>

namespace harpkeep {

namespace {

/// No more decimals than the limit has: "5", "2.5".
std::string limit_words(double cents)
{
    return format_signed(cents, cents == std::round(cents) ? 0 : 1);
}

} // namespace

std::string_view step_words(HarpKind kind, std::optional<Step> step)
{
    if (kind != HarpKind::pedal) return "open to engaged";
    if (!step) return "flat to sharp";
    return *step == Step::lower ? "flat to natural" : "natural to sharp";
}

std::string cents_words(const Measured& cents)
{
    const double half = stats::coverage_factor(0.95, cents.degrees_of_freedom) * cents.uncertainty;
    return format_cents(Cents{cents.value}, Cents{half}) + " cents";
}

std::string cents_words(double cents, double lower_cents, double upper_cents)
{
    return fmt::format("{} cents (95 %: {} to {})", format_signed(cents, 1), format_signed(lower_cents, 1),
                       format_signed(upper_cents, 1));
}

std::string band_words(const ToleranceBand& band_cents)
{
    return fmt::format("{} to {} cents", limit_words(band_cents.lower), limit_words(band_cents.upper));
}

std::string_view width_words(double cents)
{
    return cents >= 0.0 ? "too wide" : "too narrow";
}

std::string listed(std::span<const std::string> items)
{
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i > 0) text += i + 1 == items.size() ? " and " : ", ";
        text += items[i];
    }
    return text;
}

std::string certainty_words(double probability)
{
    if (probability > 0.999) return "over 99.9 % certain";
    if (probability >= 0.99) return fmt::format("{:.1f} % certain", std::floor(1000.0 * probability) / 10.0);
    return fmt::format("{:.0f} % certain", std::floor(100.0 * probability));
}

std::string how_many(int count, std::string_view one, std::string_view more)
{
    return fmt::format("{} {}", count, count == 1 ? one : more);
}

} // namespace harpkeep
