// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/picture_png.hpp"

#include "ui/dashboard/text.hpp"

#include "base/expects.hpp"

#include <cairo.h>
#include <fmt/format.h>

#include <cmath>
#include <memory>
#include <numbers>

namespace harpkeep::dashboard {

namespace {

struct Release {
    void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
    void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using Surface = std::unique_ptr<cairo_surface_t, Release>;
using Canvas = std::unique_ptr<cairo_t, Release>;

void use(cairo_t* canvas, Colour c)
{
    cairo_set_source_rgba(canvas, c.red / 255.0, c.green / 255.0, c.blue / 255.0, c.alpha / 255.0);
}

void use_font(cairo_t* canvas, float size, bool bold)
{
    cairo_select_font_face(canvas, "DejaVu Sans", CAIRO_FONT_SLANT_NORMAL,
                           bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(canvas, static_cast<double>(size));
}

double advance(cairo_t* canvas, const std::string& text)
{
    cairo_text_extents_t extents;
    cairo_text_extents(canvas, text.c_str(), &extents);
    return extents.x_advance;
}

void trace(cairo_t* canvas, const std::vector<Point>& points)
{
    cairo_new_path(canvas);
    for (const Point p : points) cairo_line_to(canvas, static_cast<double>(p.x), static_cast<double>(p.y));
}

struct Painter {
    cairo_t* canvas;

    void operator()(const LineShape& s) const
    {
        trace(canvas, s.points);
        if (s.closed) cairo_close_path(canvas);
        use(canvas, s.colour);
        cairo_set_line_width(canvas, static_cast<double>(s.width));
        constexpr std::array<double, 2> dashes{5.0, 4.0};
        cairo_set_dash(canvas, dashes.data(), s.dashed ? 2 : 0, 0.0);
        cairo_stroke(canvas);
    }
    void operator()(const AreaShape& s) const
    {
        trace(canvas, s.points);
        use(canvas, s.colour);
        cairo_fill(canvas);
    }
    void operator()(const BoxShape& s) const
    {
        cairo_rectangle(canvas, static_cast<double>(s.low.x), static_cast<double>(s.low.y),
                        static_cast<double>(s.high.x - s.low.x), static_cast<double>(s.high.y - s.low.y));
        use(canvas, s.colour);
        cairo_fill(canvas);
    }
    void operator()(const DiscShape& s) const
    {
        cairo_new_path(canvas);
        cairo_arc(canvas, static_cast<double>(s.centre.x), static_cast<double>(s.centre.y),
                  static_cast<double>(s.radius), 0.0, 2.0 * std::numbers::pi);
        use(canvas, s.colour);
        cairo_set_dash(canvas, nullptr, 0, 0.0);
        cairo_set_line_width(canvas, static_cast<double>(s.width));
        if (s.filled)
            cairo_fill(canvas);
        else
            cairo_stroke(canvas);
    }
    void operator()(const TextShape& s) const
    {
        use_font(canvas, s.size, s.bold);
        use(canvas, s.colour);
        const double width = advance(canvas, s.text);
        const double shift = s.across == Across::left ? 0.0 : s.across == Across::centre ? 0.5 : 1.0;
        // 0.36 em below the middle of the line is the baseline of a face like DejaVu Sans.
        cairo_move_to(canvas, static_cast<double>(s.at.x) - shift * width,
                      static_cast<double>(s.at.y) + 0.36 * static_cast<double>(s.size));
        cairo_show_text(canvas, s.text.c_str());
    }
};

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length)
{
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

Result<std::string> encode(cairo_surface_t* surface)
{
    std::string bytes;
    const auto status = cairo_surface_write_to_png_stream(surface, append, &bytes);
    if (status != CAIRO_STATUS_SUCCESS)
        return failure(ErrorCode::unavailable,
                       fmt::format(text::png_failed_format, cairo_status_to_string(status)));
    return bytes;
}

} // namespace

Result<std::string> png_of(const Picture& picture, Colour ground, double pixels_per_unit)
{
    HARPKEEP_EXPECTS(picture.width >= 1.0F && picture.height >= 1.0F && pixels_per_unit > 0.0);
    const Surface surface{cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(static_cast<double>(picture.width) * pixels_per_unit)),
        static_cast<int>(std::ceil(static_cast<double>(picture.height) * pixels_per_unit)))};
    const Canvas canvas{cairo_create(surface.get())};
    cairo_scale(canvas.get(), pixels_per_unit, pixels_per_unit);
    use(canvas.get(), ground);
    cairo_paint(canvas.get());
    for (const auto& shape : picture.shapes) std::visit(Painter{canvas.get()}, shape);
    return encode(surface.get());
}

TextMeasure measure_for_paper()
{
    const std::shared_ptr<cairo_surface_t> surface{cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1),
                                                   cairo_surface_destroy};
    const std::shared_ptr<cairo_t> canvas{cairo_create(surface.get()), cairo_destroy};
    return [surface, canvas](std::string_view text, float size, bool bold) {
        use_font(canvas.get(), size, bold);
        return static_cast<float>(advance(canvas.get(), std::string{text}));
    };
}

} // namespace harpkeep::dashboard
