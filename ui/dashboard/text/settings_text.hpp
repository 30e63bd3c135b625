// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Settings
inline constexpr const char* theme_why = "Light or dark ground; the figures are the same";
inline constexpr const char* name_styles_why =
    "How string places are named on every page. Numbers: 1E is string 1 and those above it have names only; "
    "on harps that do not reach 1E, the highest is string 1.";
inline constexpr const char* look = "Look";
inline constexpr const char* theme = "Light or dark";
inline constexpr std::array<const char*, 2> themes{"Light", "Dark"};
inline constexpr const char* font_size = "Size of letters";
inline constexpr const char* font_size_why =
    "0.8 to 2.5 times the usual size (Ctrl + and Ctrl −, Ctrl Shift 0 for 1.0)";
inline constexpr const char* grow = "Larger in a very large window";
inline constexpr const char* grow_why = "Letters and drawings grow with a window of more than 2400 by 1500 points; without it they keep their size and more fits in";
inline constexpr const char* name_style = "Strings are called";
inline constexpr std::array<const char*, 3> name_styles{"4C (harp octave)", "C4 (scientific)",
                                                        "24 C (number)"};
inline constexpr const char* dark_f = "Draw F strings black";
inline constexpr const char* dark_f_why = "F strings are black or blue, depending on who made them";
inline constexpr const char* a4_title = "A above middle C, in hertz";
inline constexpr const char* back_to_own = "Back to your ledger";
inline constexpr const char* back_to_own_why =
    "Close the example school and show the ledger that was open before";
inline constexpr const char* tolerance = "Tolerance of each step, in cents from 100";
inline constexpr const char* tolerance_why =
    "No open source states a tolerance; these bands are this project's own choice. A step is out when it "
    "lies beyond the band by more than its uncertainty.";
inline constexpr const char* tolerance_low = "at least";
inline constexpr const char* tolerance_high = "at most";
inline constexpr const char* tolerance_all = "All octaves";
inline constexpr const char* tolerance_top = "Octaves 0 and 1";
inline constexpr const char* set_tolerance = "Use for this harp";
inline constexpr const char* the_ledger = "The ledger";
inline constexpr const char* open_other_ledger = "Open another ledger";
inline constexpr const char* open_other_ledger_why = "Choose a ledger file; the one open now stays as it is";
inline constexpr const char* open_example = "Open the example school";
inline constexpr const char* open_example_why =
    "An invented school with two and a half years of its harps, in a ledger of its own; yours stays as it is";
inline constexpr const char* new_harp = "Add a harp";
inline constexpr const char* new_harp_why = "Enter another harp into the ledger";
inline constexpr const char* about_format = "harpkeep {}, MIT licence";

// clang-format on

} // namespace harpkeep::dashboard::text
