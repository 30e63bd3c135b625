// SPDX-License-Identifier: MIT
#pragma once

#include <compare>
#include <optional>
#include <string>
#include <string_view>

namespace harpkeep {

/// A calendar date as people note it: a day, or only a month (`day` 0), or only a year (`month` 0 too).
///
/// Notes  Gregorian, years 1 to 9999. A partial date sorts before the days it holds.
struct Date {
    int year = 1970;
    int month = 0;
    int day = 0;

    auto operator<=>(const Date&) const = default;
    [[nodiscard]] constexpr bool is_full() const { return day != 0; }
};

/// Whether the date is in the calendar: 2023-02-29 is not.
[[nodiscard]] bool is_valid(Date date);

/// "2026-03-04", "2026-03" or "2026" (ISO 8601:2004, 4.1.2, calendar dates and their reduced forms).
[[nodiscard]] std::string iso_date(Date date);
/// The inverse of iso_date(); nothing when the text is no such date.
[[nodiscard]] std::optional<Date> date_from_iso(std::string_view text);

/// The earliest and the latest day that a partial date can mean; a full date is both.
[[nodiscard]] Date first_day(Date date);
[[nodiscard]] Date last_day(Date date);

/// Days from 1970-01-01 to the first day of `date`.
///
/// Reference  H. Hinnant, "chrono-Compatible Low-Level Date Algorithms", days_from_civil and civil_from_days
///            (from memory)
[[nodiscard]] int days_since_epoch(Date date);
[[nodiscard]] Date date_from_days(int days_since_epoch);

/// The same day `months` later, or the last day of that month when it is shorter: 2026-01-31 + 1 is
/// 2026-02-28. A partial date is taken at its first day.
[[nodiscard]] Date plus_months(Date date, int months);

} // namespace harpkeep
