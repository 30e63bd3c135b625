// SPDX-License-Identifier: MIT
#include "ui/dashboard/example/example.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace harpkeep::dashboard::example {

double Dice::even()
{
    // SplitMix64 (from memory).
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
    return static_cast<double>((z ^ (z >> 31U)) >> 11U) * 0x1.0p-53;
}

double Dice::normal()
{
    const double radius = std::sqrt(-2.0 * std::log(1.0 - even()));
    return radius * std::cos(2.0 * std::numbers::pi * even());
}

HarpHeading heron()
{
    return {"heron", "Heron", "pedal harp, 47 strings, 2009", "practice room 2"};
}

HarpLayout layout_of_heron()
{
    return make_layout({.kind = HarpKind::pedal, .string_count = 47}).value();
}

namespace {

bool is(StringPlace place, const char* name)
{
    return place == place_from_harp_name(name);
}

/// Planted: the F pedal raises its naturals too little, 2A's lower disc is far off, 1D's natural is wide.
double planted(StringPlace place, Step step)
{
    double cents = place.letter == Letter::F && step == Step::lower ? -5.6 : 0.0;
    if (is(place, "2A") && step == Step::upper) cents += 11.4;
    if (is(place, "1D") && step == Step::lower) cents += 6.4;
    if (is(place, "4G") && step == Step::upper) cents -= 8.3;
    return cents;
}

StepToday judged(StringPlace place, Step step, Dice& dice)
{
    StepToday out;
    const bool top = place.harp_octave() <= 1;
    out.low_cents = top ? -3.0 : -5.0;
    out.high_cents = top ? 8.0 : 5.0;
    const double uncertainty = (top ? 0.45 : 0.15) + 0.2 * dice.even();
    const double value = planted(place, step) + 1.25 * dice.normal();
    if (is(place, "6E") && step == Step::upper) {
        out.state = State::not_measured;
        out.why = "The sharp of 6E was not heard; pluck it again.";
        return out;
    }
    out.error_cents = Figure{value, uncertainty};
    const double reach = 1.645 * uncertainty; // 95 % one-sided
    const double over = std::max(value - out.high_cents, out.low_cents - value);
    const bool watch = value > 0.5 * out.high_cents || value < 0.5 * out.low_cents;
    out.state = over > reach    ? State::out
                : over > -reach ? State::unsure
                : watch         ? State::watch
                                : State::fine;
    out.why = fmt::format("Tolerance \u2212{:.0f} to +{:.0f} cents; two plucks of each position.",
                          -out.low_cents, out.high_cents);
    return out;
}

std::vector<std::string> causes_of(StringPlace place)
{
    if (is(place, "2A")) return {"Only this string is off: its lower disc, its nut or the string itself."};
    if (is(place, "4G"))
        return {"Only this string is off, and its sharp rings shorter: poor grip is likely."};
    if (is(place, "1D")) return {"On for 6 days: still settling. Measure again in about a week."};
    if (place.letter == Letter::F) return {"All F strings step short together: this points at the F pedal."};
    return {};
}

} // namespace

TodayModel today()
{
    TodayModel model;
    model.harp = heron();
    model.checked_on = today_day - std::chrono::days{2};
    model.check_note = "Checked 2026-11-22: 137 of 139 readings trusted, 21 °C, 44 % humidity.";
    model.verdict = Verdict::call_now;
    model.reasons = {
        {"F pedal: naturals 5.6 ± 0.4 cents too narrow", "All seven F strings agree; six of them are out.",
         State::out},
        {"2A: sharp 11.7 ± 0.3 cents too wide", "Single string; has grown since spring.", State::out},
        {"4G: sharp 8.6 ± 0.2 cents too narrow", "Rings shorter in sharp than in natural.", State::out}};
    model.to_do = {
        {"Ask the technician for a visit", "Name the F pedal, 2A and 4G first; the sheet is ready.",
         State::out},
        {"Pluck 6E again in sharp", "It was not heard in the last check.", State::not_measured},
        {"Wait with 1D until about 1 December", "A new string stretches for about two weeks.", State::watch},
        {"Until the visit: tune around F", "Raising the open F strings by 2.8 cents halves the error.",
         State::fine}};
    Dice dice{20261122};
    for (const auto& string : layout_of_heron().strings) {
        StringToday out;
        out.place = string.place;
        if (string.has_natural_disc) {
            out.lower = judged(string.place, Step::lower, dice);
            out.upper = judged(string.place, Step::upper, dice);
        }
        const bool wire = string.place.diatonic_index() <= StringPlace{Letter::G, 2}.diatonic_index();
        out.string_now = wire ? "wound, on since 2024-09" : "gut, on since 2025-03";
        if (string.place.harp_octave() <= 1) out.string_now = "nylon, on since 2026-02";
        if (is(string.place, "1D")) out.string_now = "nylon, on since 2026-11-18";
        out.causes = causes_of(string.place);
        model.strings.push_back(std::move(out));
    }
    for (const Letter letter : pedal_order) {
        const double base = letter == Letter::F ? -5.6 : 0.6 * dice.normal();
        const double upper = 0.6 * dice.normal();
        model.pedals.push_back(
            {letter, letter == Letter::F ? State::out : State::fine, Figure{base, 0.4}, Figure{upper, 0.4}});
    }
    return model;
}

} // namespace harpkeep::dashboard::example
