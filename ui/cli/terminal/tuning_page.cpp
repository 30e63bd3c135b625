// SPDX-License-Identifier: MIT
#include "ui/cli/terminal/tuning_page.hpp"

#include "live/straight_string.hpp"
#include "ui/cli/terminal/block_letters.hpp"
#include "ui/cli/terminal/check_page.hpp"
#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace harpkeep::cli {

namespace {

constexpr const char* keys = "j k other string   a nearest   p next pass   t A4 from a tone   q stop";
constexpr int string_top = 2;
constexpr int string_rows = 15;

/// Columns that the picture of the string may use: the right part of the page.
struct StringField {
    int middle;
    int reach;
};

StringField field_of(const Canvas& canvas)
{
    const int left = std::max(44, canvas.columns() / 2);
    const int right = canvas.columns() - 2;
    return {(left + right) / 2, std::max(4, (right - left) / 2)};
}

/// The sounding string from the neck to the soundboard, with the band of its uncertainty.
void draw_string(Canvas& canvas, const TuningView& view, const TuningPageFrame& frame)
{
    const StringField field = field_of(canvas);
    const int half = std::min(field.reach, 12);
    for (int x = -half; x <= half; ++x) {
        canvas.put(string_top - 1, field.middle + x, U'\u2550');           // neck
        canvas.put(string_top + string_rows, field.middle + x, U'\u2550'); // soundboard
    }
    const Ink ink = view.target ? string_ink(view.target->place) : Ink::normal;
    const StraightString string =
        view.pitch ? straight_string(*view.pitch, frame.tolerance) : StraightString{.straight = false};
    for (int row = 0; row < string_rows; ++row) {
        const double shape = bow_shape((row + 0.5) / string_rows);
        const auto column_at = [&](double reach) {
            return field.middle + static_cast<int>(std::lround(reach * shape * field.reach));
        };
        if (!view.pitch) {
            canvas.put(string_top + row, field.middle, U'\u2506', {.dim = true});
            continue;
        }
        for (int x = column_at(string.bow - string.blur); x <= column_at(string.bow + string.blur); ++x)
            canvas.put(string_top + row, x, U'\u2591', {.dim = true}); // light shade
        canvas.put(string_top + row, field.middle, U'\u2506', {.dim = true});
        const int column = string.straight ? field.middle : column_at(string.bow);
        canvas.put(string_top + row, column, string.straight ? U'\u2588' : U'\u2503',
                   {.ink = ink, .bold = true});
    }
}

std::string words_for(const TuningView& view, const TuningPageFrame& frame)
{
    if (!view.pitch) return "pluck a string";
    if (view.pitch->turning) return "turning";
    const double cents = view.pitch->deviation.value();
    if (std::abs(cents) <= frame.tolerance.value()) return "in tune";
    return cents < 0.0 ? "flat" : "sharp";
}

void draw_figures(Canvas& canvas, const TuningView& view, const HarpLayout& layout,
                  const TuningPageFrame& frame)
{
    const int stretch = canvas.columns() < 100 ? 1 : 2;
    if (view.target) {
        const std::string name = sounding_name(layout, {view.target->place, view.target->position});
        put_block_letters(canvas, 2, 3, name, stretch, {.ink = string_ink(view.target->place)});
        const int beside = 3 + block_letter_width(name, stretch) + 2;
        canvas.put(7, beside, format_hertz(view.target->frequency));
        canvas.put(8, beside, view.chosen ? "chosen" : "nearest", {.dim = true});
    }
    if (view.pitch) {
        const std::string cents = format_cents(view.pitch->deviation);
        put_block_letters(canvas, 10, 3, cents, stretch, {.bold = true});
        const int beside = 3 + block_letter_width(cents, stretch) + 2;
        canvas.put(16, beside, format_cents(view.pitch->deviation, view.pitch->uncertainty));
    }
    canvas.put(18, 3, words_for(view, frame), {.bold = true});
}

std::string sunk_text(const TuningView& view)
{
    std::string text;
    for (const StringTuning& string : *view.strings)
        if (string.sank) text += fmt::format(" {} {}", harp_name(string.place), format_cents(-*string.sank));
    return text.empty() ? "" : fmt::format("Sank since the last pass:{}", text);
}

} // namespace

std::string string_row(const std::vector<StringTuning>& strings)
{
    std::string row;
    for (const StringTuning& string : strings) {
        if (string.place.letter == Letter::F && !row.empty()) row += ' ';
        if (string.done)
            row += '|';
        else if (string.deviation)
            row += string.deviation->value() < 0.0 ? '(' : ')';
        else
            row += "\u00B7";
    }
    return row;
}

void draw_tuning(Canvas& canvas, const TuningView& view, const HarpLayout& layout,
                 const TuningPageFrame& frame)
{
    canvas.put(0, 1,
               fmt::format("{}   {}   pass {}   {} of {} in tune", frame.harp_name, frame.tuned_to, view.pass,
                           view.done, view.strings->size()),
               {.bold = true});
    draw_string(canvas, view, frame);
    draw_figures(canvas, view, layout, frame);
    const int row = string_top + string_rows + 3;
    canvas.put(row, 1, string_row(*view.strings));
    const int width = canvas.columns() - 2;
    if (!frame.trouble.empty())
        canvas.put_wrapped(row + 1, 1, width, 2, frame.trouble, {.ink = Ink::yellow, .bold = true});
    else
        canvas.put_wrapped(row + 1, 1, width, 2, sunk_text(view));
    canvas.put(canvas.rows() - 1, 1, keys, {.dim = true});
}

} // namespace harpkeep::cli
