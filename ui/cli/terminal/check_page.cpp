// SPDX-License-Identifier: MIT
#include "ui/cli/terminal/check_page.hpp"

#include "ui/cli/terminal/block_letters.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::cli {

namespace {

constexpr const char* keys = "space pause   u take back   n leave this part for later   q stop (all is kept)";
constexpr int small_terminal_columns = 80;

std::string_view accidental_sign(int alteration)
{
    if (alteration < 0) return "\u266D";
    return alteration > 0 ? "\u266F" : "\u266E";
}

std::string_view position_mark(Position position)
{
    switch (position) {
    case Position::flat:
        return "\u266D";
    case Position::natural:
        return "\u266E";
    case Position::sharp:
        return "\u266F";
    case Position::open:
        return "o"; // as levers are marked on paper: open or closed
    case Position::engaged:
        return "x";
    }
    return "";
}

std::string move_text(const GuidedCheckView& view, const HarpLayout& layout)
{
    if (view.single_lever && view.next)
        return fmt::format("Lever of {}: {}", harp_name(*view.single_lever),
                           position_name(view.next->position));
    if (view.to_move.empty()) return "";
    std::string letters;
    for (const Letter letter : view.to_move) letters += fmt::format(" {}", letter_name(letter));
    const auto first = view.setting[static_cast<std::size_t>(view.to_move.front())];
    return fmt::format("{} to {}:{}", layout.kind == HarpKind::lever ? "Levers" : "Pedals",
                       first ? position_name(*first) : "", letters);
}

void draw_heading(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout,
                  const CheckPageFrame& frame)
{
    std::string heading = fmt::format("{}   part {} of {}   {} of {} sounded", frame.harp_name,
                                      view.station + 1, view.station_count, view.done, view.total);
    if (view.time_left && !view.complete)
        heading += fmt::format("   about {} left", format_duration(*view.time_left));
    canvas.put(0, 1, heading, {.bold = true});
    canvas.put(1, 1, setting_text(view.setting, layout.kind));
    canvas.put(1, 34, move_text(view, layout), {.bold = true});
    if (view.closing) canvas.put(1, 34, "Once more, to see how the harp moved: all as shown", {.bold = true});
}

void draw_next(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout, int stretch)
{
    if (view.complete || view.paused || !view.next) {
        const char* word = view.complete ? "Done."
                           : view.paused ? "Paused: press space to go on."
                                         : "Let it ring.";
        canvas.put(5, 3, word, {.bold = true});
        return;
    }
    const std::string name = sounding_name(layout, *view.next);
    put_block_letters(canvas, 3, 3, name, stretch, {.ink = string_ink(view.next->place)});
    const int beside = 3 + block_letter_width(name, stretch) + 3;
    canvas.put(4, beside, "pluck", {.dim = true});
    canvas.put(5, beside,
               fmt::format("{} {}", harp_name(view.next->place), position_name(view.next->position)),
               {.bold = true});
}

/// Whether the player has to move pedals or levers before the next pluck.
bool setting_is_to_be_made(const GuidedCheckView& view)
{
    return view.notice && view.notice->kind == NoticeKind::new_setting && !view.to_move.empty();
}

/// Which pedals go where, to be read from the harp: the sign of the position and the letters.
void draw_setting(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout)
{
    const auto position = view.setting[static_cast<std::size_t>(view.to_move.front())];
    if (!position) return;
    canvas.put(11, 3,
               fmt::format("{} to {}", layout.kind == HarpKind::lever ? "levers" : "pedals",
                           position_name(*position)),
               {.bold = true});
    std::string letters{layout.kind == HarpKind::lever ? "" : position_mark(*position)};
    for (const Letter letter : view.to_move) letters += fmt::format(" {}", letter_name(letter));
    put_block_letters(canvas, 12, 3, letters, 1, {.ink = Ink::yellow, .bold = true});
}

void draw_heard(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout, int stretch)
{
    if (setting_is_to_be_made(view)) {
        draw_setting(canvas, view, layout);
        return;
    }
    if (!view.heard) return;
    const HeardNow& heard = *view.heard;
    const std::string cents = format_cents(heard.deviation);
    put_block_letters(canvas, 11, 3, cents, stretch, {.bold = heard.good, .dim = !heard.good});
    const int beside = 3 + block_letter_width(cents, stretch) + 3;
    canvas.put(12, beside, sounding_name(layout, heard.target),
               {.ink = string_ink(heard.target.place), .bold = true});
    canvas.put(13, beside, heard.is_step ? "cents, this step" : "cents from equal");
    canvas.put(14, beside, format_cents(heard.deviation, heard.uncertainty));
    canvas.put(16, beside, heard.good ? "good" : "listening", {.bold = heard.good, .dim = !heard.good});
}

void draw_messages(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout,
                   const CheckPageFrame& frame)
{
    int row = std::min(19, std::max(canvas.rows() - 5, 0));
    const int width = canvas.columns() - 2;
    if (!frame.trouble.empty())
        row += canvas.put_wrapped(row, 1, width, 2, frame.trouble, {.ink = Ink::yellow, .bold = true});
    else if (view.notice)
        row += canvas.put_wrapped(row, 1, width, 2, notice_text(*view.notice, layout.kind), {.bold = true});
    if (!frame.advice.empty())
        row += canvas.put_wrapped(row, 1, width, 2, frame.advice, {.ink = Ink::yellow});
    if (view.drift && view.complete)
        row += canvas.put_wrapped(
            row, 1, width, 2,
            fmt::format("From beginning to end the harp as a whole moved by {} cents ({} strings).",
                        format_cents(view.drift->shift, view.drift->uncertainty), view.drift->strings));
    if (!view.passed_over.empty()) {
        std::string missing = "Passed over:";
        for (const CheckTarget& target : view.passed_over)
            missing += fmt::format(" {}", sounding_name(layout, target));
        canvas.put_wrapped(row, 1, width, 1, missing);
    }
    canvas.put(canvas.rows() - 1, 1, keys, {.dim = true});
    if (frame.level)
        canvas.put(canvas.rows() - 2, 1, fmt::format("level {}", format_decibels(*frame.level)),
                   {.dim = true});
}

} // namespace

std::string sounding_name(const HarpLayout& layout, const CheckTarget& target)
{
    const HarpString* string = find_string(layout, target.place);
    const int alteration = string ? alteration_of(*string, target.position) : 0;
    return harp_name(target.place) + std::string{accidental_sign(alteration)};
}

Ink string_ink(StringPlace place)
{
    if (place.letter == Letter::C) return Ink::red;
    return place.letter == Letter::F ? Ink::blue : Ink::normal;
}

std::string setting_text(const LetterPositions& setting, HarpKind kind)
{
    std::string text = kind == HarpKind::lever ? "Levers  " : "Pedals  ";
    for (const Letter letter : pedal_order) {
        if (letter == Letter::E) text += "| ";
        const auto position = setting[static_cast<std::size_t>(letter)];
        text += fmt::format("{}{} ", letter_name(letter), position ? position_mark(*position) : "\u00B7");
    }
    text.pop_back();
    return text;
}

void draw_check(Canvas& canvas, const GuidedCheckView& view, const HarpLayout& layout,
                const CheckPageFrame& frame)
{
    const int stretch = canvas.columns() < small_terminal_columns ? 1 : 2;
    draw_heading(canvas, view, layout, frame);
    draw_next(canvas, view, layout, stretch);
    draw_heard(canvas, view, layout, stretch);
    draw_messages(canvas, view, layout, frame);
}

} // namespace harpkeep::cli
