// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// History
inline constexpr const char* compare_why = "Which two checks are set against each other";
inline constexpr const char* one_string = "One string";
inline constexpr const char* one_pedal = "Whole pedal";
inline constexpr const char* history_of_why = "Whose history is drawn";
inline constexpr const char* history_title_format = "{}, {}";
inline constexpr const char* pedal_title_format = "{} pedal, all its strings, {}";
inline constexpr const char* axis_error_cents = "error in cents from 100";
inline constexpr const char* series_checks = "checks";
inline constexpr const char* series_expected = "trend and season";
inline constexpr const char* series_forecast = "expected (95 of 100 within the shade)";
inline constexpr const char* event_visit = "visit";
inline constexpr const char* event_string = "new string";
inline constexpr const char* event_today = "today";
inline constexpr const char* point_note_format = "{}: {} cents{}";
inline constexpr const char* point_doubtful = " (doubtful, not used)";
inline constexpr const char* pedal_forecast = "The dashed line is the mean of its strings' forecasts; single strings may leave the tolerance before it does.";
inline constexpr const char* check_against_check = "One check against another";
inline constexpr const char* earlier_check = "Earlier";
inline constexpr const char* later_check = "Later";
inline constexpr std::array<const char*, 6> change_columns{"String", "Step",   "Earlier",
                                                           "Later",  "Change", "Verdict"};
inline constexpr std::array<const char*, 6> change_columns_why{
    "The string, by its place",
    "Which of its steps",
    "Error of the step in the earlier check, in cents from 100",
    "Error of the step in the later check, in cents from 100",
    "Later minus earlier, in cents, with its standard uncertainty",
    "Better: nearer to 100 cents by more than twice the uncertainty. Worse: farther by as much. Else nothing is proven"};
inline constexpr const char* change_better = "better";
inline constexpr const char* change_worse = "worse";
inline constexpr const char* change_same = "not proven";

// clang-format on

} // namespace harpkeep::dashboard::text
