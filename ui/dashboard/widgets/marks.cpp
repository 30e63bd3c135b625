// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/marks.hpp"

namespace harpkeep::dashboard {

Tint tint_of(State state)
{
    switch (state) {
    case State::fine:
        return Tint::fine;
    case State::watch:
        return Tint::watch;
    case State::out:
        return Tint::out;
    case State::unsure:
    case State::not_measured:
    case State::none:
        break;
    }
    return Tint::unsure;
}

void add_mark(Picture& picture, Point centre, float radius, State state, Lean lean, const Palette& palette)
{
    const Colour colour = palette[tint_of(state)];
    const auto [x, y] = centre;
    const float r = radius;
    const float stroke = std::max(1.4F, 0.28F * r);
    switch (state) {
    case State::fine:
        picture.shapes.push_back(DiscShape{centre, 0.55F * r, colour, true, 1.0F});
        break;
    case State::watch:
        picture.shapes.push_back(
            AreaShape{{{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}}, palette[Tint::panel]});
        picture.shapes.push_back(
            LineShape{{{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}}, colour, stroke, false, true});
        break;
    case State::unsure:
        picture.shapes.push_back(DiscShape{centre, 0.8F * r, palette[Tint::panel], true, 1.0F});
        picture.shapes.push_back(DiscShape{centre, 0.8F * r, colour, false, stroke});
        break;
    case State::out: {
        const float up = lean == Lean::narrow ? -1.0F : 1.0F;
        picture.shapes.push_back(
            AreaShape{{{x, y - up * r}, {x + r, y + up * 0.85F * r}, {x - r, y + up * 0.85F * r}}, colour});
        break;
    }
    case State::not_measured:
        picture.line({x - 0.8F * r, y}, {x + 0.8F * r, y}, colour, stroke);
        break;
    case State::none:
        break;
    }
}

} // namespace harpkeep::dashboard
