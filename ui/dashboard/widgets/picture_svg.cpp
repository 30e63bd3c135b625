// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/picture.hpp"

#include <fmt/format.h>

namespace harpkeep::dashboard {

namespace {

std::string escaped(std::string_view text)
{
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else if (c == '"')
            out += "&quot;";
        else
            out += c;
    }
    return out;
}

std::string paint(const char* attribute, Colour colour)
{
    if (colour.alpha == 255) return fmt::format("{}=\"{}\"", attribute, hex(colour));
    return fmt::format("{0}=\"{1}\" {0}-opacity=\"{2:.3f}\"", attribute, hex(colour), colour.alpha / 255.0);
}

std::string points_of(const std::vector<Point>& points)
{
    std::string out;
    for (const Point p : points) out += fmt::format("{}{:.2f},{:.2f}", out.empty() ? "" : " ", p.x, p.y);
    return out;
}

struct Writer {
    std::string& out;

    void operator()(const LineShape& s) const
    {
        out += fmt::format("<{} points=\"{}\" fill=\"none\" {} stroke-width=\"{:.2f}\"{}/>\n",
                           s.closed ? "polygon" : "polyline", points_of(s.points), paint("stroke", s.colour),
                           s.width, s.dashed ? " stroke-dasharray=\"5 4\"" : "");
    }
    void operator()(const AreaShape& s) const
    {
        out += fmt::format("<polygon points=\"{}\" {}/>\n", points_of(s.points), paint("fill", s.colour));
    }
    void operator()(const BoxShape& s) const
    {
        out += fmt::format(
            "<rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" rx=\"{:.2f}\" {}/>\n",
            s.low.x, s.low.y, s.high.x - s.low.x, s.high.y - s.low.y, s.rounding, paint("fill", s.colour));
    }
    void operator()(const DiscShape& s) const
    {
        const auto look = s.filled ? paint("fill", s.colour)
                                   : fmt::format("fill=\"none\" {} stroke-width=\"{:.2f}\"",
                                                 paint("stroke", s.colour), s.width);
        out += fmt::format("<circle cx=\"{:.2f}\" cy=\"{:.2f}\" r=\"{:.2f}\" {}/>\n", s.centre.x, s.centre.y,
                           s.radius, look);
    }
    void operator()(const TextShape& s) const
    {
        constexpr std::array<const char*, 3> anchors{"start", "middle", "end"};
        // 0.36 em below the middle of the line is the baseline of a face like DejaVu Sans.
        out += fmt::format(
            "<text x=\"{:.2f}\" y=\"{:.2f}\" font-size=\"{:.2f}\" text-anchor=\"{}\"{} {}>{}</text>\n",
            s.at.x, s.at.y + 0.36F * s.size, s.size, anchors[static_cast<std::size_t>(s.across)],
            s.bold ? " font-weight=\"bold\"" : "", paint("fill", s.colour), escaped(s.text));
    }
};

} // namespace

std::string svg_of(const Picture& picture, Colour ground)
{
    std::string out =
        fmt::format("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0:.0f}\" height=\"{1:.0f}\" "
                    "viewBox=\"0 0 {0:.0f} {1:.0f}\" font-family=\"DejaVu Sans, sans-serif\">\n"
                    "<rect width=\"100%\" height=\"100%\" fill=\"{2}\"/>\n",
                    picture.width, picture.height, hex(ground));
    for (const auto& shape : picture.shapes) std::visit(Writer{out}, shape);
    return out + "</svg>\n";
}

} // namespace harpkeep::dashboard
