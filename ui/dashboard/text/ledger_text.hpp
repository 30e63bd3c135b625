// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Words between the ledger and the pages
inline constexpr const char* material_unknown = "string";
inline constexpr const char* wound_with_format = "wound with {}";
inline constexpr const char* harp_description_format = "{}, {} strings";
inline constexpr const char* on_since_format = ", on since {}";
inline constexpr const char* check_note_format = "Checked {}: {} of {} readings trusted";
inline constexpr const char* humidity_note_format = ", {:.0f} % humidity";
inline constexpr const char* more_to_pluck_format = "and {} more strings";
inline constexpr const char* comparison_format = "{} steps came nearer to 100 cents beyond uncertainty, {} went farther, for {} neither is proven.";
inline constexpr const char* on_loan_format = "on loan to {}";
inline constexpr const char* on_loan_until_format = "on loan to {} until {}";
inline constexpr const char* no_room = "in no room";
inline constexpr const char* settling_note_format = "settling: on for {}";
inline constexpr const char* broke_on_format = "broke on {}";
inline constexpr const char* life_summary_format = "Half of them last {} ({} to {}).";
inline constexpr const char* no_lives = "No string has broken yet, so nothing can be said about how long they last.";
inline constexpr const char* part_of_school_format = "Learnt from the strings of {} harps: those in this harp's room, as the ledger has many more. The stock covers these, too.";
inline constexpr const char* part_of_school_why = "On the command line harpkeep life and harpkeep spare order take all.";
inline constexpr const char* stringing_origin = "Lengths, gauges and materials as in the harp's stringing plan; constants of the materials as set in the ledger, else as remembered by the program. The ± comes from what lengths, gauges and constants leave open.";
inline constexpr const char* more_load = "This changes the load on neck and soundboard: ask the maker or a technician first.";
inline constexpr const char* same_load = "Within what a batch of strings varies by.";
inline constexpr const char* no_key = "no key of its own";
inline constexpr const char* tuned_true = "A setting used alone can be tuned true on every string. When a piece changes pedals, tune for the list of its settings instead.";
inline constexpr const char* diary_check = "Check";
inline constexpr const char* diary_visit = "Technician's visit";
inline constexpr const char* diary_put_on_format = "{} put on";
inline constexpr const char* diary_off_format = "{} came off";
inline constexpr const char* diary_loan_format = "Lent to {}";
inline constexpr const char* diary_back = "Back from loan";
inline constexpr const char* diary_loan_due = "Due back from loan";
inline constexpr const char* prepare_old_format = "Strings of octaves 0 to 2 over two years old or of unknown age: {}";
inline constexpr const char* prepare_old_why = "Change them two to three weeks before the visit (\"Regulation appointment preparation\").";
inline constexpr const char* prepare_fresh_format = "Strings put on in the last two weeks: {}";
inline constexpr const char* prepare_fresh_why = "They are still settling; two to three weeks before the visit is best.";
inline constexpr const char* prepare_day = "Tune the harp on the day of the visit";
inline constexpr const char* prepare_day_why = "Allow about three hours; lay out spares and a list of what you noticed.";
inline constexpr const char* climate_no_constant = "There is no general rule of cents for each percent";
inline constexpr const char* climate_no_constant_why = "Neighbouring gut strings can drift in opposite directions (Lynch-Aird and Woodhouse 2018): only this harp's own history can tell.";
inline constexpr const char* due_first_check = "first check";
inline constexpr const char* due_pluck_again = "pluck again";
inline constexpr const char* due_technician = "technician";
inline constexpr const char* added_harp_format = "{} is in the ledger, {} strings.";
inline constexpr const char* broke_done_format = "{} broke on {}: noted.";
inline constexpr const char* put_on_done_format = "A new string is on {}; it settles for about two weeks.";
inline constexpr const char* visit_done = "The visit is in the ledger.";
inline constexpr const char* stock_done_format = "One more of {} in stock.";
inline constexpr const char* tolerance_done = "The tolerance is set for this harp.";
inline constexpr const char* nothing_heard_format = "no string of {} was found in {}; see that it is the right harp, and that the strings ring alone";
inline constexpr const char* checked_format = "The check is in the ledger: {} readings, {} steps, {} positions not heard.";
inline constexpr const char* columns_unknown_format = "reading {}: its headings do not tell which columns hold time, temperature and humidity; name them with harpkeep climate import";
inline constexpr const char* climate_added_format = "{} new readings of the air are in the ledger.";
inline constexpr const char* undone_format = "Taken back: {}.";
inline constexpr const char* visiting_technician = "visiting technician";
inline constexpr const char* ledger_counts_format = "{} harps, {:.1f} MB";
inline constexpr const char* fonts_unread = "looking for fonts: fontconfig could not read its configuration; install the package fontconfig";
inline constexpr const char* fonts_missing = "looking for fonts: no installed font has Latin letters and the signs for flat, natural and sharp; install the package fonts-dejavu-core";
inline constexpr const char* png_failed_format = "making a PNG picture: {}";
inline constexpr const char* no_hash_format = "naming the bytes of {}: \"{}\" is no hash";
inline constexpr const char* no_such_page = "opening a page that does not exist";
inline constexpr const char* name_needed = "a harp needs a name; write one and try again";
inline constexpr const char* no_harp_chosen = "no harp is chosen; add one first";
inline constexpr const char* unknown_spare_format = "adding to the stock: no string is known as {}";
inline constexpr const char* no_recording_chosen = "checking: no recording is chosen; add one and try again";
inline constexpr const char* which_string_format = "putting a string on {}: the stringing plan does not say which; choose material and gauge, or enter the plan";
inline constexpr const char* plan_incomplete_format = "planning {}: it needs a material, a gauge and a sounding length; fill them in";
inline constexpr const char* planned_format = "{} is in the stringing plan.";
inline constexpr const char* cost_wrong_format = "adding the visit: the cost \"{}\" is no amount; write it as 295.00 EUR";
inline constexpr const char* example_name = "Example: Larkmoor Community Music School";
inline constexpr const char* folder_failed_format = "making the folder {}: {}; see that you may write there";

// clang-format on

} // namespace harpkeep::dashboard::text
