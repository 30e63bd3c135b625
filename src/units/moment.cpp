// SPDX-License-Identifier: MIT
#include "units/moment.hpp"

#include "base/expects.hpp"

#include <cstdlib>
#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr std::int64_t ms_per_minute = 60'000;
constexpr std::int64_t ms_per_day = 86'400'000;
constexpr int greatest_offset_minutes = 18 * 60;

std::int64_t floored_days(std::int64_t ms)
{
    const std::int64_t days = ms / ms_per_day;
    return ms % ms_per_day < 0 ? days - 1 : days;
}

std::int64_t local_ms(Moment moment)
{
    return moment.utc_ms + moment.offset_minutes * ms_per_minute;
}

/// Reads a text from the left; every reader returns nothing at the first character that does not fit.
struct Scanner {
    std::string_view rest;

    bool take(char wanted)
    {
        if (rest.empty() || rest.front() != wanted) return false;
        rest.remove_prefix(1);
        return true;
    }
    std::optional<int> digits(std::size_t count)
    {
        if (rest.size() < count) return std::nullopt;
        int value = 0;
        for (const char digit : rest.substr(0, count)) {
            if (digit < '0' || digit > '9') return std::nullopt;
            value = 10 * value + (digit - '0');
        }
        rest.remove_prefix(count);
        return value;
    }
};

std::optional<int> offset_from(Scanner& scanner)
{
    if (scanner.take('Z') || scanner.take('z')) return 0;
    const bool east = scanner.take('+');
    if (!east && !scanner.take('-')) return std::nullopt;
    const auto hours = scanner.digits(2);
    if (!hours || !scanner.take(':')) return std::nullopt;
    const auto minutes = scanner.digits(2);
    if (!minutes || *minutes > 59) return std::nullopt;
    const int offset = 60 * *hours + *minutes;
    if (offset > greatest_offset_minutes) return std::nullopt;
    return east ? offset : -offset;
}

/// Milliseconds after midnight from "18:05", "18:05:00" or "18:05:00.25".
std::optional<std::int64_t> time_of_day_from(Scanner& scanner)
{
    const auto hour = scanner.digits(2);
    if (!hour || *hour > 23 || !scanner.take(':')) return std::nullopt;
    const auto minute = scanner.digits(2);
    if (!minute || *minute > 59) return std::nullopt;
    std::int64_t ms = (60 * *hour + *minute) * ms_per_minute;
    if (!scanner.take(':')) return ms;
    const auto second = scanner.digits(2);
    if (!second || *second > 59) return std::nullopt;
    ms += 1000 * *second;
    if (!scanner.take('.')) return ms;
    int scale = 100;
    bool any = false;
    while (const auto digit = scanner.digits(1)) {
        ms += *digit * scale; // finer than a millisecond is dropped
        scale /= 10;
        any = true;
    }
    if (!any) return std::nullopt;
    return ms;
}

} // namespace

Date local_date(Moment moment)
{
    return date_from_days(static_cast<int>(floored_days(local_ms(moment))));
}

Moment moment_at(Date date, int hour, int minute, int offset_minutes)
{
    HARPKEEP_EXPECTS(hour >= 0 && hour < 24 && minute >= 0 && minute < 60);
    const std::int64_t local = days_since_epoch(date) * ms_per_day + (60 * hour + minute) * ms_per_minute;
    return {local - offset_minutes * ms_per_minute, offset_minutes};
}

std::string iso_time(Moment moment)
{
    const std::int64_t ms = local_ms(moment) - floored_days(local_ms(moment)) * ms_per_day;
    const std::string date = iso_date(local_date(moment));
    const std::string fraction = ms % 1000 == 0 ? "" : fmt::format(".{:03}", ms % 1000);
    const int offset = std::abs(moment.offset_minutes);
    return fmt::format("{}T{:02}:{:02}:{:02}{}{}{:02}:{:02}", date, ms / 3'600'000, ms / ms_per_minute % 60,
                       ms / 1000 % 60, fraction, moment.offset_minutes < 0 ? '-' : '+', offset / 60,
                       offset % 60);
}

std::string short_time(Moment moment)
{
    const std::string full = iso_time(moment);
    return fmt::format("{} {}", full.substr(0, 10), full.substr(11, 5));
}

std::optional<Moment> moment_from_iso(std::string_view text)
{
    if (text.size() < 11 || (text[10] != 'T' && text[10] != 't' && text[10] != ' ')) return std::nullopt;
    const auto date = date_from_iso(text.substr(0, 10));
    if (!date) return std::nullopt;
    Scanner scanner{text.substr(11)};
    const auto ms = time_of_day_from(scanner);
    if (!ms) return std::nullopt;
    const auto offset = offset_from(scanner);
    if (!offset || !scanner.rest.empty()) return std::nullopt;
    return Moment{days_since_epoch(*date) * ms_per_day + *ms - *offset * ms_per_minute, *offset};
}

} // namespace harpkeep
