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

inline constexpr const char* wanted_title = "Parts wanted at the next visit";
inline constexpr const char* wanted_hint = "felts for the F pedal";
inline constexpr const char* wanted_why =
    "Felts, discs, rods and the like, for the technician to bring; stands on the technician's sheet. Strings "
    "and wires are found from their age";
inline constexpr const char* wanted_add = "Note it";
inline constexpr const char* wanted_drop = "Done";
inline constexpr const char* wanted_drop_why = "No longer wanted; can be taken back";
inline constexpr const char* wanted_empty = "noting a part: it has no words; say which part is wanted";
inline constexpr const char* wanted_done_format = "Wanted at the next visit: {}.";
inline constexpr const char* wanted_dropped = "The part is no longer wanted.";
inline constexpr const char* wanted_gone = "taking a part off the list: it is no longer there";
inline constexpr const char* wanted_no_longer_reason = "no longer wanted";

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
inline constexpr std::array<const char*, 8> room_columns{"Harp", "Where",   "State",   "Due",
                                                         "Cost", "At risk", "Checked", "Kind"};
inline constexpr const char* room_state_why =
    "The worst of all its steps; the figure counts the steps that are out";
inline constexpr const char* room_risk_why =
    "How many of its strings are likely to break within three months";
inline constexpr const char* room_cost_why = "Strings, visits and parts in the last twelve months";
inline constexpr std::array<const char*, 8> room_columns_why{
    "Name of the harp",      "Room in which it stands; or who has it on loan, and until when",
    room_state_why,          "What is due next, and when; late work is coloured and dated before today",
    room_cost_why,           room_risk_why,
    "Day of its last check", "Kind and number of strings"};
inline constexpr const char* room_counts_format =
    "{} harps: {} out, {} not proven, {} to watch, {} within, {} not measured";
inline constexpr const char* room_cost_format = "Cost in the last twelve months: {}";
inline constexpr const char* steps_out_short_format = "out ({})";
inline constexpr const char* due_on_format = "{}, {}";
inline constexpr const char* choose_harp_in_room =
    "Press a row: its harp can then be opened, lent, and brought back.";
inline constexpr const char* room_chosen_format = "{}: {}";
inline constexpr const char* loan_short_format = "{}, to {}";
inline constexpr const char* with_format = "with {}";
inline constexpr const char* open_harp = "Open this harp";
inline constexpr const char* open_harp_why = "Go to its page of today";

// Loans
inline constexpr const char* lend = "Lend it …";
inline constexpr const char* lend_why = "Note who takes the harp, from when, until when, and its condition";
inline constexpr const char* give_back = "It is back …";
inline constexpr const char* give_back_why = "Note that the harp came back, and its condition";
inline constexpr const char* change_loan = "Change the loan …";
inline constexpr const char* change_loan_why = "Make the loan longer, or correct what was noted of it";
inline constexpr const char* loan_lend_title = "Lend this harp";
inline constexpr const char* loan_change_title = "State this loan anew";
inline constexpr const char* loan_back_title = "This harp is back";
inline constexpr const char* loan_who = "To";
inline constexpr const char* loan_who_hint = "second-year pupil";
inline constexpr const char* loan_who_why = "By role or as you call them";
inline constexpr const char* loan_who_missing = "Say who has the harp.";
inline constexpr const char* loan_from = "from";
inline constexpr const char* loan_from_why = "Since when; year-month-day, or only year-month";
inline constexpr const char* loan_until = "until";
inline constexpr const char* loan_until_why = "When it is due back; may be left empty";
inline constexpr const char* loan_back_on = "On";
inline constexpr const char* loan_back_on_why = "The day it came back";
inline constexpr const char* loan_condition = "Condition";
inline constexpr const char* loan_condition_hint = "all strings on, scratch on the column";
inline constexpr const char* loan_condition_why =
    "Its condition at hand-over; stands on the history on paper";
inline constexpr const char* loan_condition_back_why =
    "Its condition when it came back; stands on the history on paper";
inline constexpr const char* loan_save_why = "Enter this into the ledger; can be taken back";
inline constexpr const char* loan_cancel_why = "Leave the ledger as it is";
inline constexpr const char* loan_date_wrong_format = "\"{}\" is no day; write it as 2026-11-24.";
inline constexpr const char* loan_line_format = "{}, from {}";
inline constexpr const char* loan_back_format = ", back {}";
inline constexpr const char* loan_until_format = ", due back {}";
inline constexpr const char* loan_condition_out_format = ". At hand-over: {}";
inline constexpr const char* loan_condition_back_format = ". On return: {}";
inline constexpr const char* more_loans_format = "and {} earlier loans";
inline constexpr const char* lent_format = "{} is with {}.";
inline constexpr const char* loan_changed_format = "The loan to {} is stated anew.";
inline constexpr const char* returned_format = "{} is back.";
inline constexpr const char* loan_gone =
    "changing a loan: it is no longer in the ledger; look at the room again";

// clang-format on

} // namespace harpkeep::dashboard::text
