// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

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
inline constexpr const char* done_of_short_format = "{} of {} readings";
inline constexpr const char* all_done_format = "{} readings taken";
inline constexpr const char* see_result = "See the harp today";
inline constexpr const char* just_measured = "Just measured";
inline constexpr const char* pedals_now = "Pedals";
inline constexpr const char* levers_now = "Levers";
inline constexpr const char* live_opening = "Opening the microphone.";
inline constexpr const char* live_be_silent = "Be silent for three seconds: the room is listened to.";
inline constexpr const char* live_device_lost = "The microphone has gone. Plug it in again; the check goes on by itself.";
inline constexpr const char* live_paused = "Paused. Press the space bar to go on.";
inline constexpr const char* live_finished = "All strings are done.";
inline constexpr const char* live_let_ring = "Let it ring.";
inline constexpr const char* live_good_format = "Good. Next: {}.";
inline constexpr const char* live_set_format = "Set the pedals or levers as shown, then pluck {}.";
inline constexpr const char* live_again_format = "Pluck {} again.";
inline constexpr const char* live_pluck_format = "Pluck {} once and let it ring.";
inline constexpr const char* live_drift_format = "Meanwhile the harp moved by {:+.1f} ± {:.1f} cents as a whole.";
inline constexpr const char* room_good = "Quiet enough.";
inline constexpr const char* no_doubtful_strings = "checking doubtful strings: the last check leaves none in doubt; choose another order";
inline constexpr const char* stopped_check_format = "A check of {} was stopped after {} readings; it is gone on with.";
inline constexpr const char* begin_anew = "Forget it and begin anew";
inline constexpr const char* begin_anew_why = "The readings of the stopped check are dropped";
inline constexpr const char* check_resumed = "Going on with the check that was stopped.";
inline constexpr const char* check_stored = "The check is in the ledger.";
inline constexpr const char* check_waits = "The check waits; begin again to go on with it.";
inline constexpr const char* room_before = "It is listened to for three seconds when you begin: be silent until the first string is asked for.";
inline constexpr const char* from_semitone = "cents from true semitones";
inline constexpr const char* from_expected = "cents from its note";

// Tuning
inline constexpr const char* start_tuning = "Listen";
inline constexpr const char* start_tuning_why = "Follow whatever string sounds";
inline constexpr const char* stop_tuning = "Stop listening";
inline constexpr const char* stop_tuning_why = "Let the microphone go; what is done stays marked until the page is left";
inline constexpr const char* nearest_string = "Nearest string";
inline constexpr const char* nearest_string_why = "Follow the string that sounds instead of the one chosen";
inline constexpr const char* a4_label = "A4 in Hz";
inline constexpr const char* a4_why = "The pitch of A above middle C; ISO 16 sets 440 Hz";
inline constexpr const char* tuned_in_format = "A4 {:.1f} Hz, {}, {}, pass {}";
inline constexpr const char* uncertainty_format = "cents, ± {:.1f}";
inline constexpr const char* temperament_label = "Temperament";
inline constexpr const char* temperament_why = "How the octave is divided; equal for most";
inline constexpr const char* naturals_label = "pedals in the middle";
inline constexpr const char* naturals_why = "Tune with all pedals in natural instead of flat";
inline constexpr const char* around_label = "around the chosen pedals";
inline constexpr const char* around_why_tuning = "Use the tuning list of the page of pedals, so that the setting chosen there comes out true";
inline constexpr const char* next_pass = "Next pass";
inline constexpr const char* next_pass_why = "Begin again from the first string; those that sank since are marked";
inline constexpr const char* take_a4 = "A4 from a tone";
inline constexpr const char* take_a4_why = "The next A that sounds, of a fork or another instrument, becomes A4";
inline constexpr const char* tune_sound_a = "Sound the A to tune to.";
inline constexpr const char* tune_true = "True.";
inline constexpr const char* tune_low = "Too low.";
inline constexpr const char* tune_high = "Too high.";
inline constexpr const char* tuned_in_open = "all pedals up";
inline constexpr const char* tuned_in_levers = "all levers open";
inline constexpr const char* tuned_in_naturals = "all pedals in the middle";
inline constexpr const char* tuned_around = ", around the chosen setting";
inline constexpr const char* no_temperament_format = "tuning: there is no temperament {}; choose one of the list";
inline constexpr const char* no_setting_to_tune_around = "tuning around a setting: choose one on the page of pedals first; it needs a check of this harp";
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

// clang-format on

} // namespace harpkeep::dashboard::text
