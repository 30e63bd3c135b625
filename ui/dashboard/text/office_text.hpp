// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Visits
inline constexpr const char* add_visit = "Add a visit";
inline constexpr const char* add_visit_why = "Note a technician's visit";
inline constexpr const char* visit_day = "Day";
inline constexpr const char* visit_work = "What was done";
inline constexpr const char* visit_work_hint = "felts, grip, intonation …";
inline constexpr const char* visit_day_why = "Year-month-day of the visit";
inline constexpr const char* visit_who = "By whom";
inline constexpr const char* visit_who_why = "By role or as you call them";
inline constexpr const char* visit_work_why =
    "In your words; a place in front, as in 4C: new nut, files it under that string";
inline constexpr const char* visit_cost = "Cost";
inline constexpr const char* visit_cost_hint = "295.00 EUR";
inline constexpr const char* visit_cost_why = "Amount and currency, or nothing";
inline constexpr const char* day_hint = "2026-11-24";
inline constexpr const char* day_wrong = "Write the day as year-month-day, for example 2026-11-24.";
inline constexpr std::array<const char*, 6> visit_columns{"Day",  "Who",       "Work",
                                                          "Cost", "Steps out", "Result"};
inline constexpr const char* steps_out_format = "{} before, {} after";
inline constexpr const char* steps_out_why =
    "Steps beyond tolerance in the check before the visit and in the check after it";
inline constexpr std::array<const char*, 6> visit_columns_why{
    "Day of the visit",
    "Who came, by role or as you call them",
    "What was done, as entered",
    "What it cost, as entered",
    steps_out_why,
    "How many steps came back within tolerance, from the checks before and after"};
inline constexpr const char* before_visit = "Before the next visit";
inline constexpr const char* month_back = "Month before";
inline constexpr const char* month_on = "Month after";
inline constexpr const char* month_why = "Turn the leaf of the calendar";
inline constexpr const char* due_next = "Due next";
inline constexpr const char* nothing_due = "Nothing is due.";
inline constexpr const char* visits_so_far = "Visits so far";
inline constexpr const char* on_this_day = "On this day";

// Climate
inline constexpr const char* axis_humidity = "relative humidity in percent";
inline constexpr const char* axis_temperature = "temperature in °C";
inline constexpr const char* humidity_title_format = "Humidity in {}";
inline constexpr const char* temperature_title_format = "Temperature in {}";
inline constexpr const char* inside_format =
    "In the last 90 days {} of the readings lay within both bands ({:.0f} to {:.0f} %, {:.0f} to {:.0f} °C).";
inline constexpr const char* band_source = "The bands are those of \"Guide to string replacement\".";
inline constexpr const char* import_climate = "Read a logger's table";
inline constexpr const char* import_climate_why = "A CSV file with time, temperature and humidity";

// Room
inline constexpr std::array<const char*, 9> room_columns{"Harp",    "Kind", "Where",   "On loan", "State",
                                                         "Checked", "Due",  "At risk", "Cost"};
inline constexpr const char* room_state_why =
    "The worst of all its steps; the figure counts the steps that are out";
inline constexpr const char* room_risk_why =
    "How many of its strings are likely to break within three months";
inline constexpr const char* room_cost_why = "Strings, visits and parts in the last twelve months";
inline constexpr std::array<const char*, 9> room_columns_why{
    "Name of the harp",
    "Kind and number of strings",
    "Room in which it stands",
    "Who has it, and until when",
    room_state_why,
    "Day of its last check",
    "What is due next, and when; late work is coloured and dated before today",
    room_risk_why,
    room_cost_why};
inline constexpr const char* room_counts_format =
    "{} harps: {} out, {} not proven, {} to watch, {} within, {} not measured";
inline constexpr const char* room_cost_format = "Cost in the last twelve months: {}";
inline constexpr const char* steps_out_short_format = "out ({})";
inline constexpr const char* due_on_format = "{}, {}";
inline constexpr const char* open_harp = "Open this harp";
inline constexpr const char* open_harp_why = "Go to its page of today";

// clang-format on

} // namespace harpkeep::dashboard::text
