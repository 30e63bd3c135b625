// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/palette.hpp"

#include <array>
#include <functional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace harpkeep::dashboard {

/// A place in a picture in units of design, from its top left corner.
struct Point {
    float x = 0.0F;
    float y = 0.0F;

    bool operator==(const Point&) const = default;
};

struct LineShape {
    std::vector<Point> points;
    Colour colour;
    float width = 1.0F;
    bool dashed = false;
    bool closed = false;
};
/// A filled convex polygon.
struct AreaShape {
    std::vector<Point> points;
    Colour colour;
};
struct BoxShape {
    Point low;
    Point high;
    Colour colour;
    float rounding = 0.0F;
};
struct DiscShape {
    Point centre;
    float radius = 1.0F;
    Colour colour;
    bool filled = true;
    float width = 1.0F;
};
enum class Across { left, centre, right };
struct TextShape {
    Point at; ///< the anchor: left, centre or right of the text, half of its height
    std::string text;
    Colour colour;
    float size = 14.0F;
    Across across = Across::left;
    bool bold = false;
};

using Shape = std::variant<LineShape, AreaShape, BoxShape, DiscShape, TextShape>;

/// What the pointer can ask about.
struct HotSpot {
    Point centre;
    float reach = 8.0F;
    std::string text;
};

/// A drawing as a value: painted on the screen, or written as SVG or PNG, from the same shapes.
struct Picture {
    float width = 0.0F;
    float height = 0.0F;
    std::vector<Shape> shapes;
    std::vector<HotSpot> hot_spots;

    void line(Point from, Point to, Colour colour, float stroke = 1.0F, bool dashed = false)
    {
        shapes.push_back(LineShape{{from, to}, colour, stroke, dashed, false});
    }
    void box(Point low, Point high, Colour colour, float rounding = 0.0F)
    {
        shapes.push_back(BoxShape{low, high, colour, rounding});
    }
    void text(Point at, std::string words, Colour colour, float size, Across across = Across::left,
              bool bold = false)
    {
        shapes.push_back(TextShape{at, std::move(words), colour, size, across, bold});
    }
};

/// Width of a text in units of design; the painter that will draw it knows its font.
using TextMeasure = std::function<float(std::string_view text, float size, bool bold)>;

/// A standalone SVG 1.1 document of the picture on `ground`.
[[nodiscard]] std::string svg_of(const Picture& picture, Colour ground);

} // namespace harpkeep::dashboard
