// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// The program and its pages
inline constexpr const char* program = "harpkeep";
inline constexpr std::array<const char*, 11> page_names{"Today",   "Guided check", "Tuning",  "History",
                                                        "Strings", "Tension",      "Pedals",  "Visits",
                                                        "Climate", "The room",     "Settings"};
inline constexpr std::array<const char*, 11> page_titles{"The harp today",
                                                         "Guided check",
                                                         "Tuning",
                                                         "How it got there",
                                                         "Strings, lives and spares",
                                                         "Tension and stress",
                                                         "Pedal setting and tuning around it",
                                                         "Visits and calendar",
                                                         "Climate",
                                                         "The school's room",
                                                         "Settings"};
inline constexpr std::array<const char*, 11> page_why{
    "Each string with its worst step, the verdict and what to do now",
    "The program listens and leads through the harp, hands free",
    "Tune string by string, or around what the mechanism does",
    "Any step or pedal over the years, and one check against another",
    "Age and risk of each string, how long strings last, what to order",
    "What each string pulls and how near it is to breaking",
    "Which settings can be used today and how to tune for one",
    "Technician's visits, reminders and what happened when",
    "Temperature and humidity where the harp stands",
    "All harps of the school in one table",
    "Look, names, tolerance, microphone and ledger"};
inline constexpr const char* group_harp = "This harp";
inline constexpr const char* group_school = "Around it";
inline constexpr const char* choose_harp_why = "Which harp the pages speak of";
inline constexpr const char* help = "Keys";
inline constexpr const char* help_why = "Every key the window knows (F1)";
inline constexpr const char* loading = "Reading the ledger …";

// Keys
inline constexpr const char* keys_title = "Every key";
inline constexpr std::array<std::array<const char*, 2>, 17> keys{
    {{"Ctrl 1 … Ctrl 9, Ctrl 0", "the pages in the order of the rail"},
     {"Ctrl ,", "settings"},
     {"Tab, Shift Tab", "next and previous control"},
     {"arrow keys", "walk within strings, rows and lists"},
     {"Space or Enter", "press what has the ring"},
     {"Esc", "close what lies in front"},
     {"Ctrl Z", "take back the last change"},
     {"Ctrl F", "filter the table"},
     {"Ctrl O", "check a recording"},
     {"Ctrl +, Ctrl −", "larger and smaller letters"},
     {"Ctrl 0 with Shift", "usual size of letters"},
     {"Ctrl T", "light or dark"},
     {"F5", "read the ledger again"},
     {"space bar", "in a guided check: pause and go on"},
     {"R", "in a guided check: this string once more"},
     {"S", "in a guided check: leave this string out"},
     {"F1", "this list"}}};

// clang-format on

} // namespace harpkeep::dashboard::text
