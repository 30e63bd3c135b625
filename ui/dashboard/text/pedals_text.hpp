// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Pedals
inline constexpr const char* setting_why = "Press a notch: up is flat, middle natural, down sharp";
inline constexpr const char* ready_settings = "Keys as the harp stands";
inline constexpr const char* ready_settings_why =
    "Largest error of any string that the key uses when all open strings are true; tuned around a key by itself, nearly all of it goes";
inline constexpr std::array<const char*, 5> around_columns{"String", "Sounds", "Off now", "Tune open string",
                                                           "Then off"};
inline constexpr const char* around_why =
    "Tune the open string off by this much, so that it is true where the setting uses it";
inline constexpr std::array<const char*, 5> around_columns_why{
    "The place on the harp; the mark says how it stands in this setting",
    "The note it sounds in this setting",
    "How far it is off in this setting when its open string is true, in cents",
    around_why,
    "How far it is off in this setting when the open string is tuned so, in cents"};
inline constexpr const char* worst_now_format = "Worst string now {:.1f} cents off, tuned around {:.1f}";
inline constexpr const char* enharmonic = "Same key, two spellings";
inline constexpr const char* enharmonic_why =
    "How far apart the two sound, and how fast they beat together in octave 4";
inline constexpr const char* pair_format = "{} and {}: {} cents, {:.1f} beats a second";
inline constexpr const char* tune_list = "Tuning list";
inline constexpr const char* to_tuning = "Tune by this list";
inline constexpr const char* to_tuning_why = "Open the tuning page with these targets";
inline constexpr const char* lever_no_pedals =
    "A lever harp has no pedals: each string is set by its own lever.";

// clang-format on

} // namespace harpkeep::dashboard::text
