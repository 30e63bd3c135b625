// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/bent_string.hpp"

#include "ui/dashboard/figures.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

constexpr double widest_cents = 50.0;
constexpr double finest_cents = 0.5; ///< below it the scale is nearly even
constexpr int segments = 40;
constexpr float foot = 30.0F; ///< room for the figures under the scale

struct Stage {
    float middle_x, reach, top, bottom;

    [[nodiscard]] float x(float bend, float share) const
    {
        // A plucked string held aside at its middle, rounded: sin of half a turn.
        return middle_x + bend * reach * std::sin(3.14159265F * share);
    }
    [[nodiscard]] float y(float share) const { return top + share * (bottom - top); }
};

void add_scale(Picture& picture, const Stage& stage, double good_cents, const Palette& palette)
{
    const float y = stage.y(0.5F);
    picture.line({stage.middle_x - stage.reach, y}, {stage.middle_x + stage.reach, y}, palette[Tint::line],
                 1.5F);
    for (const double cents : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0})
        for (const double side : {-1.0, 1.0}) {
            const float x = stage.middle_x + bend_of(side * cents) * stage.reach;
            picture.line({x, y - 5.0F}, {x, y + 5.0F}, palette[Tint::quiet_ink], 1.5F);
            // Where the ticks stand close, some go without their figures.
            const bool named = stage.reach > 230.0F || cents == 1.0 || cents == 50.0 || cents == 5.0 ||
                               (cents == 20.0 && stage.reach > 120.0F);
            if (named)
                picture.text({x, stage.bottom + 16.0F}, signed_figure(side * cents, 0),
                             palette[Tint::quiet_ink], 13.0F, Across::centre);
            picture.line({x, stage.bottom + 2.0F}, {x, stage.bottom + 7.0F}, palette[Tint::quiet_ink], 1.0F);
        }
    const float half = bend_of(good_cents) * stage.reach;
    picture.box({stage.middle_x - half, stage.top}, {stage.middle_x + half, stage.bottom},
                palette[Tint::band]);
    for (const float x : {stage.middle_x - half, stage.middle_x + half})
        picture.line({x, stage.top}, {x, stage.bottom}, palette[Tint::fine], 1.5F);
}

void add_shade(Picture& picture, const Stage& stage, const Figure& off, Colour colour)
{
    const float low = bend_of(off.value - 2.0 * off.uncertainty);
    const float high = bend_of(off.value + 2.0 * off.uncertainty);
    for (int i = 0; i < segments; ++i) {
        const float a = static_cast<float>(i) / segments, b = static_cast<float>(i + 1) / segments;
        picture.shapes.push_back(AreaShape{{{stage.x(low, a), stage.y(a)},
                                            {stage.x(high, a), stage.y(a)},
                                            {stage.x(high, b), stage.y(b)},
                                            {stage.x(low, b), stage.y(b)}},
                                           with_alpha(colour, 60)});
    }
}

} // namespace

float bend_of(double cents)
{
    const double size = std::log1p(std::abs(cents) / finest_cents) / std::log1p(widest_cents / finest_cents);
    return static_cast<float>(std::copysign(std::min(size, 1.0), cents));
}

Picture bent_string_picture(const std::optional<Figure>& off, double good_cents, Colour string, float width,
                            float height, const Palette& palette)
{
    Picture picture;
    picture.width = std::max(width, 200.0F);
    picture.height = std::max(height, 140.0F);
    const Stage stage{0.5F * picture.width, 0.5F * picture.width - 24.0F, 14.0F, picture.height - foot};
    add_scale(picture, stage, good_cents, palette);
    const float bar = stage.reach + 14.0F;
    picture.box({stage.middle_x - bar, stage.top - 10.0F}, {stage.middle_x + bar, stage.top},
                palette[Tint::wood], 4.0F);
    picture.box({stage.middle_x - bar, stage.bottom - 4.0F}, {stage.middle_x + bar, stage.bottom + 1.0F},
                palette[Tint::wood], 2.0F);
    const float bend = off ? bend_of(off->value) : 0.0F;
    if (off) add_shade(picture, stage, *off, string);
    LineShape line{{}, off ? string : with_alpha(string, 110), off ? 5.0F : 2.5F, !off, false};
    for (int i = 0; i <= segments; ++i) {
        const float share = static_cast<float>(i) / segments;
        line.points.push_back({stage.x(bend, share), stage.y(share)});
    }
    picture.shapes.push_back(std::move(line));
    if (off) {
        const Point middle{stage.x(bend, 0.5F), stage.y(0.5F)};
        picture.shapes.push_back(DiscShape{middle, 9.0F, palette[Tint::panel], true, 1.0F});
        picture.shapes.push_back(DiscShape{middle, 9.0F, string, false, 3.0F});
    }
    return picture;
}

} // namespace harpkeep::dashboard
