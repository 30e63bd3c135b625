// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Shared controls
inline constexpr const char* export_svg = "SVG";
inline constexpr const char* export_svg_why = "Save this picture as a drawing that scales (SVG)";
inline constexpr const char* export_png = "PNG";
inline constexpr const char* export_png_why = "Save this picture as an image (PNG)";
inline constexpr const char* export_csv = "Save as CSV";
inline constexpr const char* export_csv_why = "Save the rows as shown, for a spreadsheet (CSV, RFC 4180)";
inline constexpr const char* filter_hint = "show only rows with …";
inline constexpr const char* filter_why = "Words that a row must have, in any order (Ctrl F)";
inline constexpr const char* shown_of_format = "{} of {}";
inline constexpr const char* sort_why = "Sort by this column; again for the other way round";
inline constexpr const char* save = "Save";
inline constexpr const char* cancel = "Cancel";
inline constexpr const char* close = "Close";
inline constexpr const char* open = "Open";
inline constexpr const char* undo = "Take back";
inline constexpr const char* undo_why = "Take back the last change (Ctrl Z)";
inline constexpr const char* put_away = "Put away";
inline constexpr const char* put_away_why = "Take the message from the foot; it stays under Messages";
inline constexpr const char* all_messages = "Messages";
inline constexpr const char* all_messages_why = "Everything the window has said since it opened";
inline constexpr const char* no_messages = "Nothing has happened yet.";
inline constexpr const char* retry = "Try again";

// Files
inline constexpr const char* path_title_recording = "Recordings to check";
inline constexpr const char* path_title_climate = "The logger's table";
inline constexpr const char* path_title_ledger = "Open a ledger";
inline constexpr const char* path_title_save = "Save as";
inline constexpr const char* path_hint = "type a path; Tab completes it";
inline constexpr const char* path_why =
    "Tab completes, arrow keys choose, Enter takes it. ~ is your home folder.";
inline constexpr const char* path_empty_folder = "Nothing here that fits.";
inline constexpr const char* path_drop = "You can also drop files on the window.";
inline constexpr const char* saved_format = "Saved {}.";
inline constexpr const char* save_failed_format = "saving {}: {}; choose another folder";
inline constexpr const char* check_title = "Check these recordings";
inline constexpr const char* check_how = "One recording may hold everything in any usual order. When each position has a recording of its own, say which; they are then checked together.";
inline constexpr const char* pass_in_order = "everything, in order";
inline constexpr const char* pass_format = "every string {}";
inline constexpr const char* pass_why = "What this recording holds: the whole harp in any usual order, or every string in one position";
inline constexpr const char* leave_out = "Leave out";
inline constexpr const char* leave_out_why = "Do not use this recording";
inline constexpr const char* add_recording = "Add a recording";
inline constexpr const char* check_begin = "Check";
inline constexpr const char* check_begin_why = "Listen to the recordings and enter what they tell into the ledger";
inline constexpr const char* no_harp_to_check = "checking a recording: there is no harp in the ledger yet; add one first";
inline constexpr const char* job_example = "Making the example school";
inline constexpr const char* no_example = "opening the example school: this window has none; harpkeep demo makes one";
inline constexpr const char* no_ledger_format = "opening {}: this window keeps to the ledger it was opened with";
inline constexpr const char* job_checking = "Checking the recording";
inline constexpr const char* job_saving = "Saving";
inline constexpr const char* job_cancel_why = "Stop this; the ledger stays as it is";

// clang-format on

} // namespace harpkeep::dashboard::text
