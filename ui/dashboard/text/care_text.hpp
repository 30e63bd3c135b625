// SPDX-License-Identifier: MIT
#pragma once

#include <array>

namespace harpkeep::dashboard::text {

// clang-format off: one text a line, as long as it is

// Strings
inline constexpr const char* tab_on_harp = "On the harp";
inline constexpr const char* strings_tab_why = "The strings that are on, how long such strings last, or what is in stock and to be ordered";
inline constexpr const char* tab_lives = "How long they last";
inline constexpr const char* tab_stock = "Stock and order";
inline constexpr const char* horizon = "Risk until";
inline constexpr std::array<const char*, 4> horizons{"4 weeks", "3 months", "6 months", "a year"};
inline constexpr const char* horizon_why = "How far ahead the chance of breaking is reckoned";
inline constexpr std::array<const char*, 8> string_columns{"String", "Material", "Gauge mm", "Put on",
                                                           "Age",    "Risk",     "Spares",   "Note"};
inline constexpr const char* risk_why = "Chance that it breaks within the time chosen, from the lives of "
                                        "this school's strings of the same kind; an estimate, not a promise";
inline constexpr std::array<const char*, 8> string_columns_why{
    "The place on the harp; the mark says whether it needs a look",
    "What the string, or its core, is made of",
    "Diameter of the plain string, or of the core, in millimetres",
    "Day on which it was put on, as entered",
    "Time since it was put on",
    risk_why,
    "Strings of this place in stock, for this harp or for any",
    "What else is known of it"};
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
inline constexpr std::array<const char*, 6> stock_columns_why{
    "Place, material and gauge of the string",
    "Pieces in stock now",
    "So many that the chance of missing one stays as small as you accept",
    "Wanted less those in stock",
    "Price of one as last bought",
    "Price of those to order"};
inline constexpr const char* stock_why_format =
    "Wanted: so many that the chance of missing one until the date stays under {}";
inline constexpr const char* add_one = "One came in";
inline constexpr const char* add_one_why = "Put one more of the chosen string in stock";
inline constexpr const char* order_total_format = "Order in all: {}";
inline constexpr const char* wire_caution = "Wear eye protection when a tight string comes off, let the "
                                            "tension down before cutting, and one wire at a time.";

// A string as typed
inline constexpr const char* material_why = "What the string is made of, or its core when it is wound";
inline constexpr const char* gauge_short = "gauge";
inline constexpr const char* gauge_field_why = "Diameter of the plain string, or of the core when it is wound, in millimetres";
inline constexpr const char* gauge_field_room = "gauge  0000.00 mm";
inline constexpr const char* millimetres_hint = "mm";
inline constexpr const char* wrap_label = "wound with";
inline constexpr const char* no_wrap = "nothing";
inline constexpr const char* wrap_why = "What a bass string is wound with; nothing for a plain string";
inline constexpr const char* wrap_outer_label = "over the wrap";
inline constexpr const char* wrap_outer_why = "Diameter over the wrap in millimetres";
inline constexpr const char* length_label = "length";
inline constexpr const char* length_why = "Sounding length of the open string in millimetres, from soundboard to nut";
inline constexpr const char* length_wrong = "Write the sounding length in millimetres, for example 512.";
inline constexpr const char* make_wrong = "Write the gauge in millimetres, for example 1.02; over the wrap it must be more than the core.";
inline constexpr const char* plan_place_why = "The place that the string is meant for";
inline constexpr const char* plan_title = "Stringing plan: one place";
inline constexpr const char* plan_keep = "Keep this place";
inline constexpr const char* plan_keep_why = "Write this place into the stringing plan and go on to the next below; can be taken back";
inline constexpr const char* which_string = "The plan does not say which string belongs here:";

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
inline constexpr std::array<const char*, 7> tension_columns_why{
    "The place on the harp; the mark says how near its string is to breaking",
    "What the string, or its core, is made of",
    "Sounding length of the open string in millimetres, as planned",
    "Diameter of the plain string, or of the core, in millimetres",
    tension_why,
    "Tension over the section that carries it, in megapascals",
    breaking_why};
inline constexpr const char* try_gauge = "Try another gauge";
inline constexpr const char* gauge_label = "gauge in mm";
inline constexpr const char* gauge_why =
    "What this string would pull with another gauge; nothing is changed in the ledger";
inline constexpr const char* trial_format = "{:.2f} mm: {:.0f} N ({} N), feels {:.2f} times as stiff";
inline constexpr const char* tension_caution =
    "The strings of a concert harp pull about 10 kN together. Never loosen or tighten many at once; follow "
    "the maker's order. A wrong gauge can overload neck and soundboard.";
inline constexpr const char* choose_a_string = "Choose a string in the table.";

// clang-format on

} // namespace harpkeep::dashboard::text
