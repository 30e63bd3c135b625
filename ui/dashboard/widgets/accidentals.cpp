// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/accidentals.hpp"

#include <algorithm>

namespace harpkeep::dashboard {

namespace {

/// A stroke thick enough to fill: a parallelogram.
void slanted_bar(Picture& picture, Point centre, float half_width, float rise, float thick, Colour colour)
{
    const auto [x, y] = centre;
    picture.shapes.push_back(AreaShape{{{x - half_width, y + rise - 0.5F * thick},
                                        {x + half_width, y - rise - 0.5F * thick},
                                        {x + half_width, y - rise + 0.5F * thick},
                                        {x - half_width, y + rise + 0.5F * thick}},
                                       colour});
}

} // namespace

void add_accidental(Picture& picture, Point centre, float height, Position position, Colour colour)
{
    const auto [x, y] = centre;
    const float h = 0.5F * height;
    const float thin = std::max(1.2F, 0.055F * height);
    const float thick = std::max(2.0F, 0.13F * height);
    switch (position) {
    case Position::sharp:
        picture.line({x - 0.28F * h, y - 0.86F * h}, {x - 0.28F * h, y + h}, colour, thin);
        picture.line({x + 0.28F * h, y - h}, {x + 0.28F * h, y + 0.86F * h}, colour, thin);
        slanted_bar(picture, {x, y - 0.34F * h}, 0.62F * h, 0.14F * h, thick, colour);
        slanted_bar(picture, {x, y + 0.34F * h}, 0.62F * h, 0.14F * h, thick, colour);
        break;
    case Position::natural:
        picture.line({x - 0.32F * h, y - h}, {x - 0.32F * h, y + 0.55F * h}, colour, thin);
        picture.line({x + 0.32F * h, y - 0.55F * h}, {x + 0.32F * h, y + h}, colour, thin);
        slanted_bar(picture, {x, y - 0.34F * h}, 0.32F * h, 0.09F * h, thick, colour);
        slanted_bar(picture, {x, y + 0.34F * h}, 0.32F * h, 0.09F * h, thick, colour);
        break;
    case Position::flat: {
        const float left = x - 0.34F * h;
        picture.line({left, y - h}, {left, y + 0.92F * h}, colour, thin);
        picture.shapes.push_back(LineShape{{{left, y + 0.12F * h},
                                            {x + 0.02F * h, y - 0.12F * h},
                                            {x + 0.34F * h, y - 0.04F * h},
                                            {x + 0.40F * h, y + 0.22F * h},
                                            {x + 0.16F * h, y + 0.60F * h},
                                            {left, y + 0.92F * h}},
                                           colour,
                                           std::max(1.6F, 0.1F * height),
                                           false,
                                           false});
        break;
    }
    case Position::open:
    case Position::engaged:
        break;
    }
}

} // namespace harpkeep::dashboard
