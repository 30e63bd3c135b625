// SPDX-License-Identifier: MIT
#pragma once

#include <array>

/// Every word of the window that does not come from the ledger or from reasoning. A translation replaces this
/// file; names with _format are fmt patterns, checked when compiled.
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
inline constexpr const char* all_messages = "Messages";
inline constexpr const char* all_messages_why = "Everything the window has said since it opened";
inline constexpr const char* no_messages = "Nothing has happened yet.";
inline constexpr const char* retry = "Try again";

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

// Guided check
inline constexpr std::array<const char*, 4> ways{"Pass by pass", "String by string", "Pedal by pedal",
                                                 "Doubtful strings only"};
inline constexpr std::array<const char*, 4> ways_why{
    "All strings in flat, then all in natural, then all in sharp: least pedal work",
    "Each string in all its positions before the next: least drift between positions",
    "One pedal's strings in all octaves before the next pedal",
    "Only strings whose last check is missing or not proven"};
inline constexpr const char* choose_way = "In which order";
inline constexpr const char* choose_device = "Microphone";
inline constexpr const char* device_unfit_format = "{} (not fit: changes the pitch)";
inline constexpr const char* device_why =
    "Devices marked not fit resample the sound, which moves the pitch by about a cent without saying so";
inline constexpr const char* no_device = "No microphone found. Plug one in; it appears here by itself.";
inline constexpr const char* the_room = "How the room sounds";
inline constexpr const char* level_format = "strings at {}, room at {}, from full scale";
inline constexpr const char* begin_check = "Begin";
inline constexpr const char* begin_check_why =
    "From here on no hand is needed: the check follows what it hears";
inline constexpr const char* go_on_check = "Go on with the check of today";
inline constexpr const char* pause = "Pause";
inline constexpr const char* pause_why = "Stop listening for a while; nothing is lost (space bar)";
inline constexpr const char* resume = "Go on";
inline constexpr const char* resume_why = "Listen again (space bar)";
inline constexpr const char* repeat_string = "Again";
inline constexpr const char* repeat_string_why = "Measure this string once more (R)";
inline constexpr const char* skip_string = "Skip";
inline constexpr const char* skip_string_why = "Leave this string out; it is named as missing (S)";
inline constexpr const char* stop_check = "Stop";
inline constexpr const char* stop_check_why =
    "End for now; what was accepted is kept, the check can go on another day";
inline constexpr const char* done_of_format = "{} of {} readings, about {} left";
inline constexpr const char* all_done_format = "{} readings taken";
inline constexpr const char* see_result = "See the harp today";
inline constexpr const char* just_measured = "Just measured";
inline constexpr const char* pedals_now = "Pedals";
inline constexpr const char* levers_now = "Levers";
inline constexpr std::array<const char*, 9> phases{
    "getting ready", "set the pedals", "listening",       "measuring", "good",
    "once more",     "paused",         "microphone lost", "finished"};
inline constexpr const char* from_expected = "cents from its note";

// Tuning
inline constexpr const char* start_tuning = "Listen";
inline constexpr const char* start_tuning_why = "Follow whatever string sounds";
inline constexpr const char* stop_tuning = "Stop listening";
inline constexpr const char* nearest_string = "Nearest string";
inline constexpr const char* nearest_string_why = "Follow the string that sounds instead of the one chosen";
inline constexpr const char* a4_label = "A4 in Hz";
inline constexpr const char* a4_why = "The pitch of A above middle C; ISO 16 sets 440 Hz";
inline constexpr const char* tuned_in_format = "{}, {} temperament, pass {}";
inline constexpr const char* uncertainty_format = "cents, ± {:.1f}";
inline constexpr const char* too_low = "too low";
inline constexpr const char* too_high = "too high";
inline constexpr const char* silent = "Pluck a string.";
inline constexpr const char* tuning_off = "Press Listen, then pluck any string.";
inline constexpr const char* tuning_picture_why =
    "The string is drawn bent towards the side it is off, and straightens as it comes true. The shaded width "
    "is how sure the figure is.";
inline constexpr const char* target_offset_format = "target {} cents from equal";
inline constexpr const char* tuned_counts_format = "{} done, {} sank since, {} to go";
inline constexpr const char* tuning_choose_why =
    "Tune this string, or press Nearest string to follow your hands";

// History
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
inline constexpr const char* check_against_check = "One check against another";
inline constexpr const char* earlier_check = "Earlier";
inline constexpr const char* later_check = "Later";
inline constexpr std::array<const char*, 6> change_columns{"String", "Step",   "Earlier",
                                                           "Later",  "Change", "Verdict"};
inline constexpr const char* change_better = "better";
inline constexpr const char* change_worse = "worse";
inline constexpr const char* change_same = "no change proven";
inline constexpr const char* change_why =
    "Later minus earlier, in cents; better means nearer to 100 cents, by more than twice the uncertainty";

// Strings
inline constexpr const char* tab_on_harp = "On the harp";
inline constexpr const char* tab_lives = "How long they last";
inline constexpr const char* tab_stock = "Stock and order";
inline constexpr const char* horizon = "Risk until";
inline constexpr std::array<const char*, 4> horizons{"4 weeks", "3 months", "6 months", "a year"};
inline constexpr const char* horizon_why = "How far ahead the chance of breaking is reckoned";
inline constexpr std::array<const char*, 8> string_columns{"String", "Material", "Gauge mm", "Put on",
                                                           "Age",    "Risk",     "Spares",   "Note"};
inline constexpr const char* risk_why = "Chance that it breaks within the time chosen, from the lives of "
                                        "this school's strings of the same kind; an estimate, not a promise";
inline constexpr const char* put_on_about_format = "about {}";
inline constexpr const char* no_string = "no string";
inline constexpr const char* put_on = "New string on";
inline constexpr const char* put_on_why =
    "Note that a string of the plan was put on today; can be taken back";
inline constexpr const char* broke = "It broke";
inline constexpr const char* broke_why = "Note that it broke today; can be taken back";
inline constexpr const char* chosen_string_format = "{}: {} {:.2f} mm";
inline constexpr const char* risk_range_format = "{} ({} to {})";
inline constexpr const char* axis_years = "years on the harp";
inline constexpr const char* axis_surviving = "share still whole";
inline constexpr const char* axis_risk = "chance of breaking, in 100";
inline constexpr const char* risk_plot = "Risk along the harp";
inline constexpr const char* life_counted = "counted";
inline constexpr const char* life_fitted = "fitted";
inline constexpr const char* life_rests_format =
    "{} {} breaks among {} strings; the rest were changed for other reasons or are still on.";
inline constexpr std::array<const char*, 6> stock_columns{"String",   "In stock", "Wanted",
                                                          "To order", "Each",     "Cost"};
inline constexpr const char* stock_why_format =
    "Wanted: so many that the chance of missing one until the date stays under {}";
inline constexpr const char* add_one = "One came in";
inline constexpr const char* add_one_why = "Put one more of the chosen string in stock";
inline constexpr const char* order_total_format = "Order in all: {}";
inline constexpr const char* wire_caution = "Wear eye protection when a tight string comes off, let the "
                                            "tension down before cutting, and one wire at a time.";

// Tension
inline constexpr const char* total_pull_format = "All strings together pull {:.1f} ± {:.1f} kN";
inline constexpr const char* axis_tension = "tension in newtons";
inline constexpr const char* axis_breaking = "stress, share of breaking stress in 100";
inline constexpr const char* tension_plot = "Tension along the harp";
inline constexpr const char* breaking_plot = "How near to breaking";
inline constexpr std::array<const char*, 7> tension_columns{
    "String", "Material", "Length mm", "Gauge mm", "Tension N", "Stress MPa", "Of breaking"};
inline constexpr const char* tension_why =
    "From length, pitch and mass for each length: T = mass · (2 · length · pitch)²";
inline constexpr const char* breaking_why = "Stress as part of the stress at which the material breaks; "
                                            "plain strings do not get safer by being thicker";
inline constexpr const char* try_gauge = "Try another gauge";
inline constexpr const char* gauge_label = "gauge in mm";
inline constexpr const char* gauge_why =
    "What this string would pull with another gauge; nothing is changed in the ledger";
inline constexpr const char* trial_format = "{:.2f} mm: {:.0f} N ({} N), feels {:.2f} times as stiff";
inline constexpr const char* tension_caution =
    "The strings of a concert harp pull about 10 kN together. Never loosen or tighten many at once; follow "
    "the maker's order. A wrong gauge can overload neck and soundboard.";
inline constexpr const char* choose_a_string = "Choose a string in the table.";

// Pedals
inline constexpr const char* setting_why = "Press a notch: up is flat, middle natural, down sharp";
inline constexpr const char* ready_settings = "Usable today";
inline constexpr const char* ready_settings_why =
    "Largest error of any string when the harp is tuned around this setting";
inline constexpr std::array<const char*, 5> around_columns{"String", "Sounds", "Off now", "Tune open string",
                                                           "Then off"};
inline constexpr const char* around_why =
    "Tune the open string off by this much, so that it is true where the setting uses it";
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

// Visits
inline constexpr const char* add_visit = "Add a visit";
inline constexpr const char* add_visit_why = "Note a technician's visit";
inline constexpr const char* visit_day = "Day";
inline constexpr const char* visit_work = "What was done";
inline constexpr const char* visit_work_hint = "felts, grip, intonation …";
inline constexpr const char* day_hint = "2026-11-24";
inline constexpr const char* day_wrong = "Write the day as year-month-day, for example 2026-11-24.";
inline constexpr std::array<const char*, 6> visit_columns{"Day",  "Who",       "Work",
                                                          "Cost", "Steps out", "Result"};
inline constexpr const char* steps_out_format = "{} before, {} after";
inline constexpr const char* steps_out_why =
    "Steps beyond tolerance in the check before the visit and in the check after it";
inline constexpr const char* before_visit = "Before the next visit";
inline constexpr const char* month_back = "Month before";
inline constexpr const char* month_on = "Month after";
inline constexpr const char* due_next = "Due next";
inline constexpr const char* nothing_due = "Nothing is due.";
inline constexpr const char* visits_so_far = "Visits so far";
inline constexpr const char* on_this_day = "On this day";

// Climate
inline constexpr const char* axis_humidity = "relative humidity in percent";
inline constexpr const char* axis_temperature = "temperature in °C";
inline constexpr const char* humidity_title_format = "Humidity in {}";
inline constexpr const char* temperature_title_format = "Temperature in {}";
inline constexpr const char* inside_format =
    "In the last 90 days {} readings lay within both bands ({:.0f} to {:.0f} %, {:.0f} to {:.0f} °C).";
inline constexpr const char* band_source = "The bands are those of \"Guide to string replacement\".";
inline constexpr const char* import_climate = "Read a logger's table";
inline constexpr const char* import_climate_why = "A CSV file with time, temperature and humidity";

// Room
inline constexpr std::array<const char*, 9> room_columns{"Harp",    "Kind", "Where",   "On loan", "State",
                                                         "Checked", "Due",  "At risk", "Cost"};
inline constexpr const char* room_state_why =
    "The worst of all its steps; the figure counts the steps that are out";
inline constexpr const char* room_risk_why =
    "How many of its strings are likely to break within three months";
inline constexpr const char* room_cost_why = "Strings, visits and parts in the last twelve months";
inline constexpr const char* room_counts_format =
    "{} harps: {} out, {} not proven, {} to watch, {} within, {} not measured";
inline constexpr const char* room_cost_format = "Cost in the last twelve months: {}";
inline constexpr const char* steps_out_short_format = "out ({})";
inline constexpr const char* due_on_format = "{}, {}";
inline constexpr const char* open_harp = "Open this harp";
inline constexpr const char* open_harp_why = "Go to its page of today";

// Settings
inline constexpr const char* look = "Look";
inline constexpr const char* theme = "Ground";
inline constexpr std::array<const char*, 2> themes{"Light", "Dark"};
inline constexpr const char* font_size = "Size of letters";
inline constexpr const char* font_size_why =
    "0.8 to 2.5 times the usual size (Ctrl + and Ctrl −, Ctrl 0 for 1.0)";
inline constexpr const char* name_style = "Strings are called";
inline constexpr std::array<const char*, 3> name_styles{"4C (harp octave)", "C4 (scientific)",
                                                        "24 C (from the top)"};
inline constexpr const char* dark_f = "Draw F strings black";
inline constexpr const char* dark_f_why = "F strings are black or blue, depending on who made them";
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
    "An invented school with its harps, to look around; nothing is written";
inline constexpr const char* new_harp = "Add a harp";
inline constexpr const char* new_harp_why = "Enter another harp into the ledger";
inline constexpr const char* about_format = "harpkeep {}, MIT licence";

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
inline constexpr const char* add_harp = "Put it in the ledger";
inline constexpr const char* or_look_around = "Or look around first";
inline constexpr const char* empty_no_harp = "There is no harp in the ledger yet";
inline constexpr const char* empty_no_harp_next = "Add your harp, or open the example school to look around.";
inline constexpr const char* empty_no_check = "This harp has not been checked yet";
inline constexpr const char* empty_no_check_next =
    "One check is enough to see each string and pedal. Three over a year begin to show drift.";
inline constexpr const char* empty_no_plan = "The stringing plan is not in the ledger yet";
inline constexpr const char* empty_no_plan_next = "Enter length, gauge and material of each place with harpkeep string plan; then this page shows what every string pulls and how near it is to breaking.";
inline constexpr const char* empty_no_climate = "Nothing is known of the air around this harp yet";
inline constexpr const char* empty_no_climate_next = "Note temperature and humidity with each check, or read the table of a logger.";
inline constexpr const char* empty_no_data = "Nothing has been entered here yet";
inline constexpr const char* empty_no_data_next =
    "Put the strings in when you change them, and visits when they happen: the page fills by itself.";

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
inline constexpr const char* stringing_origin = "Lengths, gauges and materials as in the harp's stringing plan; constants of the materials as set in the ledger, else as remembered by the program. Figures are bounds at their worst, shown as standard uncertainty.";
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
inline constexpr const char* prepare_old_format = "{} strings of octaves 0 to 2 are over two years old or of unknown age";
inline constexpr const char* prepare_old_why = "Change them two to three weeks before the visit (\"Regulation appointment preparation\").";
inline constexpr const char* prepare_fresh_format = "{} strings were put on in the last two weeks";
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
inline constexpr const char* use_command_line_format = "the window cannot do this yet; use the command line: {}";

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
inline constexpr const char* job_checking = "Checking the recording";
inline constexpr const char* job_saving = "Saving";
inline constexpr const char* job_cancel_why = "Stop this; the ledger stays as it is";

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
