// SPDX-License-Identifier: MIT
#include "ui/dashboard/figures.hpp"

#include "harp/string_number.hpp"
#include "ui/dashboard/text.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

std::string signed_figure(double value, int decimals)
{
    return format_signed(value, decimals);
}

std::string figure_text(const Figure& figure, int decimals)
{
    return format_cents(Cents{figure.value}, Cents{figure.uncertainty}, decimals);
}

std::string day_text(Day day)
{
    const std::chrono::year_month_day date{day};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string age_text(double days)
{
    if (days < 1.5) return text::one_day;
    if (days < 60.0) return fmt::format(text::days_format, static_cast<int>(std::lround(days)));
    if (days < 730.0)
        return fmt::format(text::months_format, static_cast<int>(std::lround(days / 30.436875)));
    return fmt::format(text::years_format, days / 365.2425);
}

std::string duration_text(double seconds)
{
    return format_duration(Seconds{seconds});
}

std::string chance_text(double chance)
{
    if (chance < 0.01) return text::under_one_in_hundred;
    if (chance > 0.99) return text::over_99_in_hundred;
    return fmt::format(text::in_hundred_format, static_cast<int>(std::lround(100.0 * chance)));
}

std::string place_name(StringPlace place, NameStyle style, StringPlace top)
{
    switch (style) {
    case NameStyle::harp_octave:
        break;
    case NameStyle::scientific:
        return scientific_name(place);
    case NameStyle::number:
        if (const auto number = string_number(place, top))
            return fmt::format("{} {}", *number, letter_name(place.letter));
    }
    return harp_name(place);
}

std::string position_sign(Position position)
{
    switch (position) {
    case Position::flat:
        return "\u266D";
    case Position::natural:
        return "\u266E";
    case Position::sharp:
        return "\u266F";
    case Position::open:
    case Position::engaged:
        break;
    }
    return std::string{position_name(position)};
}

std::string step_text(HarpKind kind, Step step)
{
    if (kind != HarpKind::pedal) return text::step_open_engaged;
    return step == Step::lower ? text::step_flat_natural : text::step_natural_sharp;
}

} // namespace harpkeep::dashboard
