// SPDX-License-Identifier: MIT
#pragma once

#include "units/date.hpp"
#include "units/moment.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// One entry of a calendar, on whole days.
struct CalendarEntry {
    std::string uid; ///< the same whenever the same entry is written again
    Date on;         ///< a partial date stands on its first day
    std::string summary;
    std::string description;
    bool is_task = false; ///< something to be done by that day, else something that happens on it
};

/// A calendar file.
///
/// Given      written  when the calendar is made
/// Returns    iCalendar text, lines ended with CRLF and folded at 75 octets; tasks as VTODO, the rest as
/// VEVENT Notes      All-day entries have a DATE; the end of a day is the next day, as DTEND is exclusive.
/// Reference  RFC 5545, sections 3.1, 3.3.11, 3.6; read back by libical in
/// tests/src/exchange/icalendar_test.cpp
[[nodiscard]] std::string icalendar(const std::vector<CalendarEntry>& entries, std::string_view calendar_name,
                                    Moment written);

/// One content line, folded: at most 75 octets before each line end, never inside a UTF-8 character.
[[nodiscard]] std::string folded_line(std::string_view line);

} // namespace harpkeep
