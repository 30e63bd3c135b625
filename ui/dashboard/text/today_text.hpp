// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Today
inline constexpr const char* verdict_call_now = "Call the technician now";
inline constexpr const char* verdict_next_visit = "Tell the technician at the next visit";
inline constexpr const char* verdict_not_needed = "No technician needed";
inline constexpr const char* verdict_too_little = "Not enough readings to say";
inline constexpr const char* start_check = "Start a guided check";
inline constexpr const char* start_check_why =
    "Pluck each string while the program listens; about eight minutes for 47 strings";
inline constexpr const char* check_a_recording = "Check a recording";
inline constexpr const char* check_a_recording_why =
    "Use recordings made with a phone; you can also drop them on the window (Ctrl O)";
inline constexpr const char* what_to_do = "What to do";
inline constexpr const char* its_history = "Its history";
inline constexpr const char* its_history_why = "This string over the years";
inline constexpr const char* it_broke = "It broke";
inline constexpr const char* it_broke_why =
    "Note that the string on this place broke today; can be taken back";
inline constexpr const char* step_why = "How far the step is from one equal semitone (100 cents), with its "
                                        "standard uncertainty. Plus: too wide. Minus: too narrow.";
inline constexpr const char* strip_title_format = "{}: cents from 100";
inline constexpr const char* pedals_together = "What each pedal does to all its strings";
inline constexpr const char* pedals_together_why =
    "Mean error of all strings of a pedal in cents: above, flat to natural; below, natural to sharp. All "
    "strings of one pedal off the same way point at the pedal, not at the strings.";
inline constexpr const char* pedal_history_why = "This pedal over the years";

// clang-format on

} // namespace harpkeep::dashboard::text
