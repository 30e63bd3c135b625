// SPDX-License-Identifier: MIT
#include "units/date.hpp"

#include "base/expects.hpp"

#include <array>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

constexpr int days_in_month(int year, int month)
{
    constexpr std::array<int, 12> days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && is_leap(year) ? 29 : days[static_cast<std::size_t>(month - 1)];
}

/// The number that `digits` spell, when all are digits.
std::optional<int> number(std::string_view digits)
{
    int value = 0;
    for (const char digit : digits) {
        if (digit < '0' || digit > '9') return std::nullopt;
        value = 10 * value + (digit - '0');
    }
    return value;
}

} // namespace

bool is_valid(Date date)
{
    if (date.year < 1 || date.year > 9999) return false;
    if (date.month == 0) return date.day == 0;
    if (date.month < 1 || date.month > 12) return false;
    return date.day >= 0 && date.day <= days_in_month(date.year, date.month);
}

std::string iso_date(Date date)
{
    HARPKEEP_EXPECTS(is_valid(date));
    if (date.month == 0) return fmt::format("{:04}", date.year);
    if (date.day == 0) return fmt::format("{:04}-{:02}", date.year, date.month);
    return fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day);
}

std::optional<Date> date_from_iso(std::string_view text)
{
    if (text.size() != 4 && text.size() != 7 && text.size() != 10) return std::nullopt;
    if ((text.size() > 4 && text[4] != '-') || (text.size() > 7 && text[7] != '-')) return std::nullopt;
    const auto year = number(text.substr(0, 4));
    const auto month = text.size() > 4 ? number(text.substr(5, 2)) : 0;
    const auto day = text.size() > 7 ? number(text.substr(8, 2)) : 0;
    if (!year || !month || !day) return std::nullopt;
    if ((text.size() > 4 && *month == 0) || (text.size() > 7 && *day == 0)) return std::nullopt;
    const Date date{*year, *month, *day};
    if (!is_valid(date)) return std::nullopt;
    return date;
}

Date first_day(Date date)
{
    return {date.year, date.month == 0 ? 1 : date.month, date.day == 0 ? 1 : date.day};
}

Date last_day(Date date)
{
    const int month = date.month == 0 ? 12 : date.month;
    return {date.year, month, date.day == 0 ? days_in_month(date.year, month) : date.day};
}

int days_since_epoch(Date date)
{
    HARPKEEP_EXPECTS(is_valid(date));
    const Date day = first_day(date);
    // The year begins in March, so that the leap day is its last.
    const int year = day.month <= 2 ? day.year - 1 : day.year;
    const int era = year / 400;
    const int year_of_era = year - 400 * era;
    const int month_from_march = (day.month + 9) % 12;
    const int day_of_year = (153 * month_from_march + 2) / 5 + day.day - 1;
    const int day_of_era = 365 * year_of_era + year_of_era / 4 - year_of_era / 100 + day_of_year;
    return 146097 * era + day_of_era - 719468; // 719468: days from 0000-03-01 to 1970-01-01
}

Date date_from_days(int days)
{
    HARPKEEP_EXPECTS(days >= -719162 && days <= 2932896); // 0001-01-01 to 9999-12-31
    const int shifted = days + 719468;
    const int era = shifted / 146097;
    const int day_of_era = shifted - 146097 * era;
    const int year_of_era = (day_of_era - day_of_era / 1460 + day_of_era / 36524 - day_of_era / 146096) / 365;
    const int day_of_year = day_of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const int month_from_march = (5 * day_of_year + 2) / 153;
    const int day = day_of_year - (153 * month_from_march + 2) / 5 + 1;
    const int month = month_from_march < 10 ? month_from_march + 3 : month_from_march - 9;
    return {year_of_era + 400 * era + (month <= 2 ? 1 : 0), month, day};
}

Date plus_months(Date date, int months)
{
    const Date day = first_day(date);
    const int counted = 12 * day.year + (day.month - 1) + months;
    const int year = counted / 12;
    const int month = counted % 12 + 1;
    HARPKEEP_EXPECTS(counted >= 12 && year <= 9999);
    const int longest = days_in_month(year, month);
    return {year, month, day.day < longest ? day.day : longest};
}

} // namespace harpkeep
