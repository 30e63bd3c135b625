// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Sheets to print, in the order of the kinds of reports
inline constexpr std::array<const char*, 6> sheet_titles{
    "Sheet for the technician", "Before and after a visit", "History of this harp",
    "A school year on paper",   "Card for the harp's case", "Tuning list on paper"};
inline constexpr std::array<const char*, 6> sheet_holds{
    "One or two pages for the visit: verdict, last visits, climate, pedals and strings with both steps in "
    "the order of work, what you noted, and room for the technician's own notes.",
    "What the visit improved, step by step, from the check before it and the check after it.",
    "Everything that happened to the harp, for insurance, sale or hand-over at a loan.",
    "Every harp with its condition, loans, due work and cost, for a room or the whole school.",
    "Each place with its string, when it was put on, and the spares; to lie in the case.",
    "The pitch of every open string with boxes to tick."};
inline constexpr std::array<const char*, 6> sheet_buttons{
    "Sheet for the technician …", "Before and after …",  "History on paper …",
    "School year on paper …",     "Card for the case …", "List on paper …"};
inline constexpr const char* sheet_whose_format = "{}: {}";
inline constexpr const char* sheet_why_format =
    "Save it as a PDF to print, A4 or Letter, or as CSV or JSON. {}";
inline constexpr const char* sheet_format = "Kind of file";
inline constexpr std::array<const char*, 3> sheet_formats{"PDF to print", "CSV for a spreadsheet",
                                                          "JSON for programs"};
inline constexpr const char* sheet_format_why =
    "The same contents for the printer, for a spreadsheet (its main table) or for another program";
inline constexpr const char* sheet_paper = "Paper";
inline constexpr std::array<const char*, 2> sheet_papers{"A4", "Letter"};
inline constexpr const char* sheet_paper_why = "Size of the paper in your printer; the window remembers it";
inline constexpr const char* sheet_room = "Room";
inline constexpr const char* sheet_room_why = "One room, or every harp of the ledger";
inline constexpr const char* sheet_whole_school = "the whole school";
inline constexpr const char* sheet_year = "School year";
inline constexpr const char* sheet_year_format = "{} to {}";
inline constexpr const char* sheet_year_why =
    "From August to July; other days can be asked for by harpkeep report room --first-day";
inline constexpr const char* sheet_occasion = "For";
inline constexpr const char* sheet_occasion_hint = "Spring concert";
inline constexpr const char* sheet_occasion_why = "Stands in the head of the list; may be empty";
inline constexpr const char* sheet_around_format =
    "Tuned around the setting that the page of pedals shows: {}.";
inline constexpr const char* sheet_plain =
    "Every open string at its pitch; tuning around a pedal setting starts on the page of pedals.";
inline constexpr const char* sheet_make = "Choose where to save";
inline constexpr const char* sheet_make_why = "Make the sheet, then name its file";
inline constexpr const char* sheet_making_format = "Making the sheet … {:.0f} %";
inline constexpr const char* job_sheet = "Making the sheet";

// clang-format on

} // namespace harpkeep::dashboard::text
