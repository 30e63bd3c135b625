// SPDX-License-Identifier: MIT
#include "exchange/icalendar.hpp"

#include <fmt/format.h>

namespace harpkeep {

namespace {

constexpr std::size_t longest_line_octets = 75; // RFC 5545, 3.1

/// RFC 5545, 3.3.11: backslash, semicolon, comma and newline are escaped; other control characters are not
/// allowed and are left out.
std::string escaped(std::string_view text)
{
    std::string result;
    for (const char character : text) {
        if (character == '\\' || character == ';' || character == ',')
            result += '\\', result += character;
        else if (character == '\n')
            result += "\\n";
        else if (static_cast<unsigned char>(character) >= 0x20 && character != '\x7F')
            result += character;
    }
    return result;
}

std::string compact_date(Date date)
{
    const Date day = first_day(date);
    return fmt::format("{:04}{:02}{:02}", day.year, day.month, day.day);
}

std::string compact_utc(Moment moment)
{
    const std::string text = iso_time({moment.utc_ms, 0}); // 2026-03-04T18:05:00+00:00
    return fmt::format("{}{}{}T{}{}{}Z", text.substr(0, 4), text.substr(5, 2), text.substr(8, 2),
                       text.substr(11, 2), text.substr(14, 2), text.substr(17, 2));
}

constexpr bool continues_character(char byte)
{
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

std::string entry_text(const CalendarEntry& entry, const std::string& stamp)
{
    const char* component = entry.is_task ? "VTODO" : "VEVENT";
    const Date next_day = date_from_days(days_since_epoch(entry.on) + 1);
    std::string text = fmt::format("BEGIN:{}\r\n", component);
    text += folded_line("UID:" + escaped(entry.uid));
    text += folded_line("DTSTAMP:" + stamp);
    if (entry.is_task) {
        text += folded_line("DUE;VALUE=DATE:" + compact_date(entry.on));
    } else {
        text += folded_line("DTSTART;VALUE=DATE:" + compact_date(entry.on));
        text += folded_line("DTEND;VALUE=DATE:" + compact_date(next_day));
        text += folded_line("TRANSP:TRANSPARENT"); // a visit does not make the owner busy all day
    }
    text += folded_line("SUMMARY:" + escaped(entry.summary));
    if (!entry.description.empty()) text += folded_line("DESCRIPTION:" + escaped(entry.description));
    return text + fmt::format("END:{}\r\n", component);
}

} // namespace

std::string folded_line(std::string_view line)
{
    std::string result;
    std::size_t room = longest_line_octets;
    while (line.size() > room) {
        std::size_t cut = room;
        while (cut > 0 && continues_character(line[cut])) --cut;
        if (cut == 0) cut = room; // bytes that are not UTF-8: any place is as good
        result += line.substr(0, cut);
        result += "\r\n ";
        line.remove_prefix(cut);
        room = longest_line_octets - 1; // the space counts
    }
    result += line;
    return result + "\r\n";
}

std::string icalendar(const std::vector<CalendarEntry>& entries, std::string_view calendar_name,
                      Moment written)
{
    const std::string stamp = compact_utc(written);
    std::string text = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//harpkeep//harpkeep//EN\r\n";
    text += folded_line(fmt::format("NAME:{}", escaped(calendar_name))); // RFC 7986, 5.1 (from memory)
    for (const CalendarEntry& entry : entries) text += entry_text(entry, stamp);
    return text + "END:VCALENDAR\r\n";
}

} // namespace harpkeep
