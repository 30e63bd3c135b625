// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Units and words
inline constexpr std::array<const char*, 12> short_months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                          "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
inline constexpr std::array<const char*, 12> months{"January",   "February", "March",    "April",
                                                    "May",       "June",     "July",     "August",
                                                    "September", "October",  "November", "December"};
inline constexpr std::array<const char*, 7> weekdays{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
inline constexpr const char* one_day = "1 day";
inline constexpr const char* days_format = "{} days";
inline constexpr const char* months_format = "{} months";
inline constexpr const char* years_format = "{:.1f} years";
inline constexpr const char* under_one_in_hundred = "under 1 in 100";
inline constexpr const char* over_99_in_hundred = "over 99 in 100";
inline constexpr const char* in_hundred_format = "{} in 100";
inline constexpr const char* cents_format = "{} cents";
inline constexpr const char* step_flat_natural = "flat to natural";
inline constexpr const char* step_natural_sharp = "natural to sharp";
inline constexpr const char* step_open_engaged = "open to engaged";
inline constexpr const char* state_fine = "within";
inline constexpr const char* state_watch = "watch";
inline constexpr const char* state_unsure = "not proven";
inline constexpr const char* state_out = "out";
inline constexpr const char* state_not_measured = "not measured";
inline constexpr const char* not_measured = "not measured";
inline constexpr const char* no_discs = "This string has no discs.";

// clang-format on

} // namespace harpkeep::dashboard::text
