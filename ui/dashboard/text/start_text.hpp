// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// First start and empty pages
inline constexpr const char* welcome = "Welcome";
inline constexpr const char* welcome_text =
    "harpkeep listens to each string of a harp and tells whether every pedal or lever step is still a true "
    "semitone, which string or pedal is to blame, and whether it is time to call the technician.";
inline constexpr const char* first_step = "1  Your harp";
inline constexpr const char* second_step = "2  Its first check";
inline constexpr const char* second_step_text =
    "Sit in a quiet room, damp the other strings, and either record all strings with a phone or let the "
    "program listen. About eight minutes.";
inline constexpr const char* third_step = "3  Then";
inline constexpr const char* third_step_text =
    "Check again about every three months and after each visit; put in strings when you change them. The "
    "longer the record, the more it can tell.";
inline constexpr const char* harp_name_label = "Name";
inline constexpr const char* harp_name_hint = "for example Heron";
inline constexpr const char* harp_name_why = "What you call it; can be changed later";
inline constexpr const char* harp_kind_label = "Kind";
inline constexpr std::array<const char*, 3> harp_kinds{"Pedal harp", "Single-action", "Lever harp"};
inline constexpr const char* strings_label = "strings";
inline constexpr const char* strings_why =
    "How many strings it has; 47, 46, 44 or 40 are usual for pedal harps";
inline constexpr const char* add_harp = "Add this harp";
inline constexpr const char* or_look_around = "Or look around first";
inline constexpr const char* empty_no_harp = "There is no harp in the ledger yet";
inline constexpr const char* empty_no_harp_next = "Add your harp, or open the example school to look around.";
inline constexpr const char* empty_no_check = "This harp has not been checked yet";
inline constexpr const char* empty_no_check_next =
    "One check is enough to see each string and pedal. Three over a year begin to show drift.";
inline constexpr const char* empty_no_plan = "The stringing plan is not in the ledger yet";
inline constexpr const char* empty_no_plan_next = "Enter length, gauge and material place by place, here or with harpkeep plan set; then this page shows what every string pulls and how near it is to breaking.";
inline constexpr const char* empty_no_climate = "Nothing is known of the air around this harp yet";
inline constexpr const char* empty_no_climate_next = "Note temperature and humidity with each check, or read the table of a logger.";
inline constexpr const char* empty_no_data = "Nothing has been entered here yet";
inline constexpr const char* empty_no_data_next =
    "Put the strings in when you change them, and visits when they happen: the page fills by itself.";

// clang-format on

} // namespace harpkeep::dashboard::text
