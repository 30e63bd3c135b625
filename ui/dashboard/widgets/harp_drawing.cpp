// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/harp_drawing.hpp"

#include "ui/dashboard/figures.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

constexpr float left_room = 40.0F; ///< column, and the figures of the strips
constexpr float right_room = 16.0F;
constexpr float label_room = 18.0F;
constexpr float strip_gap = 26.0F;
constexpr float small_text = 12.0F;

/// Drawn length of a string, `octaves` below the top one, in top lengths: 2^(o - o^2 / 20).
float drawn_length(float octaves)
{
    return std::exp2(octaves - 0.05F * octaves * octaves);
}

/// The upright extent of harp and strips.
struct Layout {
    float width, height;
    float harp_top, harp_bottom;
    float strip_height;
    int count;
    float shortest;

    [[nodiscard]] float x(int index) const { return string_x(index, count, width); }
    [[nodiscard]] float share(int index) const
    {
        return count > 1 ? static_cast<float>(index) / static_cast<float>(count - 1) : 0.0F;
    }
    [[nodiscard]] float length(int index) const
    {
        return drawn_length(static_cast<float>(count - 1 - index) / 7.0F) / longest();
    }
    [[nodiscard]] float longest() const { return drawn_length(static_cast<float>(count - 1) / 7.0F); }
    // The soundboard climbs towards the treble; string and climb together fill the height in the bass.
    [[nodiscard]] float foot(int index) const
    {
        return harp_bottom - 0.60F * share(index) * (harp_bottom - harp_top);
    }
    [[nodiscard]] float head(int index) const
    {
        // The shortest strings would leave no room for their marks.
        return foot(index) - std::hypot(length(index) * (harp_bottom - harp_top), shortest);
    }
};

void add_frame(Picture& picture, const Layout& layout, const Palette& palette)
{
    const Colour wood = palette[Tint::wood];
    LineShape neck{{}, wood, 9.0F, false, false};
    LineShape board{{}, wood, 4.0F, false, false};
    neck.points.push_back({layout.x(0) - 14.0F, layout.head(0) - 6.0F});
    for (int i = 0; i < layout.count; ++i) {
        neck.points.push_back({layout.x(i), layout.head(i) - 6.0F});
        board.points.push_back({layout.x(i), layout.foot(i) + 2.0F});
    }
    const int last = layout.count - 1;
    neck.points.push_back({layout.x(last) + 9.0F, layout.head(last) - 4.0F});
    board.points.insert(board.points.begin(), {layout.x(0) - 14.0F, layout.foot(0) + 3.0F});
    board.points.push_back({layout.x(last) + 9.0F, layout.head(last) - 4.0F});
    picture.line({layout.x(0) - 14.0F, layout.head(0) - 10.0F}, {layout.x(0) - 14.0F, layout.foot(0) + 5.0F},
                 wood, 7.0F);
    picture.shapes.push_back(std::move(neck));
    picture.shapes.push_back(std::move(board));
}

void add_string(Picture& picture, const Layout& layout, const HarpDrawing& drawing, int index,
                const Palette& palette)
{
    const auto& string = drawing.strings[static_cast<std::size_t>(index)];
    const float x = layout.x(index);
    const bool chosen = index == drawing.chosen;
    const Colour colour = string_colour(string.place.letter, palette, drawing.dark_f);
    // Bass strings are thicker; 1.0 to 2.4 units.
    float stroke = 1.0F + 1.4F * (1.0F - layout.share(index));
    if (string.strong || chosen) stroke += 1.2F;
    const Colour shown = string.faint ? mixed(colour, palette[Tint::panel], 0.65) : colour;
    picture.line({x, layout.head(index)}, {x, layout.foot(index)}, shown, stroke, string.faint);
    if (!drawing.strips.empty())
        picture.line({x, layout.foot(index) + 5.0F}, {x, layout.height - label_room},
                     with_alpha(palette[Tint::line], chosen ? 255 : 90), 1.0F);
}

void add_disc_marks(Picture& picture, const Layout& layout, const HarpDrawing& drawing, int index,
                    float radius, const Palette& palette)
{
    const auto& string = drawing.strings[static_cast<std::size_t>(index)];
    const float x = layout.x(index);
    const float first = layout.head(index) + radius + 3.0F;
    const float second = first + 2.2F * radius + 2.0F;
    add_mark(picture, {x, first}, radius, string.lower, string.lower_lean, palette);
    add_mark(picture, {x, second}, radius, string.upper, string.upper_lean, palette);
}

void add_strip(Picture& picture, const Layout& layout, const HarpDrawing& drawing, std::size_t number,
               float radius, const Palette& palette, const TextMeasure& measure)
{
    const auto& strip = drawing.strips[number];
    const float top = layout.harp_bottom + 14.0F +
                      static_cast<float>(number) * (layout.strip_height + strip_gap) + strip_gap;
    const float middle = top + 0.5F * layout.strip_height;
    const auto reach = static_cast<float>(drawing.strip_reach_cents);
    const auto y = [&](double cents) {
        return middle -
               std::clamp(static_cast<float>(cents) / reach, -1.0F, 1.0F) * 0.5F * layout.strip_height;
    };
    const bool bold = measure(strip.title, 14.0F, true) <= layout.width;
    picture.text({0.0F, top - 11.0F}, strip.title, palette[Tint::ink], bold ? 14.0F : small_text,
                 Across::left, bold);

    const float half = 0.5F * (layout.x(1) - layout.x(0));
    for (int i = 0; i < layout.count; ++i) {
        const auto& step = strip.steps[static_cast<std::size_t>(i)];
        if (step.state == State::none) continue;
        picture.box({layout.x(i) - half, y(step.high_cents)}, {layout.x(i) + half + 0.3F, y(step.low_cents)},
                    palette[Tint::band]);
    }
    for (const double cents : {-10.0, -5.0, 0.0, 5.0, 10.0}) {
        if (std::abs(cents) > drawing.strip_reach_cents) continue;
        picture.line({left_room - 14.0F, y(cents)}, {layout.width - right_room + 8.0F, y(cents)},
                     with_alpha(palette[Tint::line], cents == 0.0 ? 255 : 120), cents == 0.0 ? 1.5F : 1.0F);
        picture.text({left_room - 18.0F, y(cents)}, signed_figure(cents, 0), palette[Tint::quiet_ink],
                     small_text, Across::right);
    }
    for (int i = 0; i < layout.count; ++i) {
        const auto& step = strip.steps[static_cast<std::size_t>(i)];
        const float x = layout.x(i);
        if (step.state == State::none) continue;
        if (!step.error_cents) {
            add_mark(picture, {x, middle}, radius, State::not_measured, Lean::level, palette);
            continue;
        }
        const double spread = 2.0 * step.error_cents->uncertainty;
        picture.line({x, y(step.error_cents->value - spread)}, {x, y(step.error_cents->value + spread)},
                     palette[tint_of(step.state)], 1.6F);
        add_mark(picture, {x, y(step.error_cents->value)}, radius, step.state,
                 step.error_cents->value < 0.0 ? Lean::narrow : Lean::wide, palette);
    }
}

void add_labels(Picture& picture, const Layout& layout, const HarpDrawing& drawing, const Palette& palette,
                const TextMeasure& measure)
{
    const float y = layout.height - 0.5F * label_room;
    const auto label = [&](int i, bool bold) {
        const auto& string = drawing.strings[static_cast<std::size_t>(i)];
        const bool coloured = string.place.letter == Letter::C || string.place.letter == Letter::F;
        picture.text({layout.x(i), y}, string.label,
                     coloured ? string_colour(string.place.letter, palette, drawing.dark_f)
                              : palette[Tint::ink],
                     bold ? 14.0F : small_text, Across::centre, bold);
    };
    // The chosen string comes first, then C, then F, each where it keeps clear of those before.
    std::vector<std::pair<float, float>> taken;
    const auto place = [&](int i, bool bold) {
        const auto& string = drawing.strings[static_cast<std::size_t>(i)];
        const float half = 0.5F * measure(string.label, bold ? 14.0F : small_text, bold);
        const float low = layout.x(i) - half, high = layout.x(i) + half;
        constexpr float gap = 3.0F;
        for (const auto& [from, to] : taken)
            if (low < to + gap && from - gap < high) return;
        taken.emplace_back(low, high);
        label(i, bold);
    };
    if (drawing.chosen >= 0) place(drawing.chosen, true);
    for (const Letter letter : {Letter::C, Letter::F})
        for (int i = 0; i < layout.count; ++i)
            if (i != drawing.chosen && drawing.strings[static_cast<std::size_t>(i)].place.letter == letter)
                place(i, false);
}

} // namespace

Colour string_colour(Letter letter, const Palette& palette, bool dark_f)
{
    return palette[string_tint(letter, dark_f)];
}

Tint string_tint(Letter letter, bool dark_f)
{
    if (letter == Letter::C) return Tint::string_c;
    if (letter == Letter::F) return dark_f ? Tint::ink : Tint::string_f;
    return Tint::string_plain;
}

float string_x(int index, int count, float width)
{
    const float span = std::max(width, 240.0F) - left_room - right_room;
    const float share = count > 1 ? static_cast<float>(index) / static_cast<float>(count - 1) : 0.0F;
    return left_room + 8.0F + share * (span - 8.0F);
}

Picture harp_picture(const HarpDrawing& drawing, float width, float height, const Palette& palette,
                     const TextMeasure& measure)
{
    Picture picture;
    picture.width = std::max(width, 240.0F);
    picture.height = std::max(height, 120.0F);
    const auto count = static_cast<int>(drawing.strings.size());
    if (count < 2) return picture;

    Layout layout{picture.width, picture.height, 16.0F, 0.0F, 0.0F, count, 0.0F};
    const auto strips = static_cast<float>(drawing.strips.size());
    // Strips take three fifths of the height that the drawing has beyond labels and gaps.
    const float free = picture.height - label_room - 30.0F - strips * strip_gap;
    layout.strip_height = strips > 0.0F ? std::max(0.56F * free / strips, 40.0F) : 0.0F;
    layout.harp_bottom = layout.harp_top + std::max(free - strips * layout.strip_height, 40.0F);

    layout.shortest = std::min(40.0F, 0.16F * (layout.harp_bottom - layout.harp_top) + 8.0F);

    const float pitch = layout.x(1) - layout.x(0);
    const float radius = std::clamp(0.42F * pitch, 3.0F, 6.0F);
    for (int i = 0; i < count; ++i) add_string(picture, layout, drawing, i, palette);
    for (std::size_t strip = 0; strip < drawing.strips.size(); ++strip)
        add_strip(picture, layout, drawing, strip, radius, palette, measure);
    add_frame(picture, layout, palette);
    for (int i = 0; i < count; ++i) add_disc_marks(picture, layout, drawing, i, radius, palette);
    add_labels(picture, layout, drawing, palette, measure);
    return picture;
}

} // namespace harpkeep::dashboard
