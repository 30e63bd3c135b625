// SPDX-License-Identifier: MIT
#include "exchange/icalendar.hpp"

#include <catch2/catch.hpp>

#include <libical/ical.h>
#include <memory>

using namespace harpkeep;

namespace {

constexpr Moment written{1772643900000, 60}; // 2026-03-04T17:05:00Z

const std::vector<CalendarEntry> entries{
    {"visit-1", {2026, 3, 31}, "Visit; Heron, Wren", "Felt \\ replaced\nplay check", false},
    {"due-1",
     {2026, 9},
     "Überholung der Harfe \u266D \u266F, die einen sehr langen Namen trägt, damit die Zeile bricht",
     "",
     true}};

using Component = std::unique_ptr<icalcomponent, decltype(&icalcomponent_free)>;

Component parsed(const std::string& text)
{
    Component component{icalparser_parse_string(text.c_str()), &icalcomponent_free};
    REQUIRE(component);
    return component;
}

} // namespace

TEST_CASE("icalendar: libical reads what was written, and finds no error", "[exchange][twin]")
{
    const auto calendar = parsed(icalendar(entries, "Larkmoor harps", written));
    CHECK(icalcomponent_count_errors(calendar.get()) == 0);
    CHECK(icalrestriction_check(calendar.get()) == 1);

    icalcomponent* event = icalcomponent_get_first_component(calendar.get(), ICAL_VEVENT_COMPONENT);
    REQUIRE(event != nullptr);
    CHECK(std::string{icalcomponent_get_summary(event)} == entries[0].summary);
    CHECK(std::string{icalcomponent_get_description(event)} == entries[0].description);
    CHECK(std::string{icalcomponent_get_uid(event)} == "visit-1");
    const icaltimetype start = icalcomponent_get_dtstart(event), end = icalcomponent_get_dtend(event);
    CHECK(start.is_date == 1);
    CHECK((start.year == 2026 && start.month == 3 && start.day == 31));
    CHECK((end.year == 2026 && end.month == 4 && end.day == 1)); // exclusive
    CHECK(icaltime_as_timet(icalcomponent_get_dtstamp(event)) == written.utc_ms / 1000);

    icalcomponent* task = icalcomponent_get_first_component(calendar.get(), ICAL_VTODO_COMPONENT);
    REQUIRE(task != nullptr);
    CHECK(std::string{icalcomponent_get_summary(task)} == entries[1].summary);
    const icaltimetype due = icalcomponent_get_due(task);
    CHECK((due.year == 2026 && due.month == 9 && due.day == 1));
}

// RFC 5545, 3.1: lines of at most 75 octets, a fold is CRLF and a space.
TEST_CASE("icalendar: lines are folded at 75 octets and never inside a character", "[exchange][property]")
{
    for (std::size_t length = 1; length < 400; ++length) {
        std::string line;
        while (line.size() < length) line += length % 3 == 0 ? "\u266D" : (length % 3 == 1 ? "a" : "é");
        const std::string folded = folded_line(line);
        std::string unfolded;
        std::size_t begin = 0;
        bool short_enough = true, whole_characters = true;
        while (begin < folded.size()) {
            const auto end = folded.find("\r\n", begin);
            REQUIRE(end != std::string::npos);
            short_enough = short_enough && end - begin <= 75;
            const std::string piece = folded.substr(begin, end - begin);
            const std::string content = begin == 0 ? piece : piece.substr(1);
            whole_characters = whole_characters && (static_cast<unsigned char>(content[0]) & 0xC0U) != 0x80U;
            unfolded += content;
            begin = end + 2;
        }
        CHECK(short_enough);
        CHECK(whole_characters);
        CHECK(unfolded == line);
    }
}

TEST_CASE("icalendar: an empty calendar is one too", "[exchange]")
{
    CHECK(icalcomponent_count_errors(parsed(icalendar({}, "x", written)).get()) == 0);
}
