// SPDX-License-Identifier: MIT
#include "report/pen.hpp"

namespace harpkeep::report {

namespace {

constexpr const char* font_family = "DejaVu Sans";

template <class T>
std::shared_ptr<T> owned(T* object)
{
    return {object, [](T* one) { g_object_unref(one); }};
}

std::shared_ptr<PangoFontDescription> description_of(const Look& look)
{
    std::shared_ptr<PangoFontDescription> description{pango_font_description_new(),
                                                      pango_font_description_free};
    pango_font_description_set_family(description.get(), font_family);
    pango_font_description_set_weight(description.get(), look.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(description.get(), look.size_pt * PANGO_SCALE);
    return description;
}

PangoAlignment alignment_of(Align align)
{
    switch (align) {
    case Align::right:
        return PANGO_ALIGN_RIGHT;
    case Align::centre:
        return PANGO_ALIGN_CENTER;
    case Align::left:
        break;
    }
    return PANGO_ALIGN_LEFT;
}

PangoRectangle extents_of(PangoLayout* layout)
{
    PangoRectangle logical;
    pango_layout_get_extents(layout, nullptr, &logical);
    return logical;
}

} // namespace

double SetText::width_pt() const
{
    return static_cast<double>(extents_of(layout_.get()).width) / PANGO_SCALE;
}

double SetText::height_pt() const
{
    return static_cast<double>(extents_of(layout_.get()).height) / PANGO_SCALE;
}

double SetText::baseline_pt() const
{
    return static_cast<double>(pango_layout_get_baseline(layout_.get())) / PANGO_SCALE;
}

void SetText::draw(cairo_t* canvas, double x_pt, double y_pt) const
{
    cairo_set_source_rgb(canvas, grey_, grey_, grey_);
    cairo_move_to(canvas, x_pt, y_pt);
    pango_cairo_show_layout(canvas, layout_.get());
}

int SetText::line_count() const
{
    return pango_layout_get_line_count(layout_.get());
}

void SetText::draw_line_alone(cairo_t* canvas, int line, double x_pt, double y_pt) const
{
    cairo_set_source_rgb(canvas, grey_, grey_, grey_);
    cairo_move_to(canvas, x_pt, y_pt + baseline_pt());
    pango_cairo_show_layout_line(canvas, pango_layout_get_line_readonly(layout_.get(), line));
}

Pen::Pen()
    : fonts_(owned(pango_cairo_font_map_new())), context_(owned(pango_font_map_create_context(fonts_.get())))
{
    const std::shared_ptr<cairo_font_options_t> options{cairo_font_options_create(),
                                                        cairo_font_options_destroy};
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context_.get(), options.get());
    pango_cairo_context_set_resolution(context_.get(), 72.0);
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    pango_context_set_language(context_.get(), pango_language_from_string("en"));
}

bool Pen::has_font() const
{
    const auto font = owned(pango_context_load_font(context_.get(), description_of({}).get()));
    if (!font) return false;
    const std::shared_ptr<PangoFontDescription> found{pango_font_describe(font.get()),
                                                      pango_font_description_free};
    const char* family = pango_font_description_get_family(found.get());
    return family != nullptr && std::string_view{family} == font_family;
}

SetText Pen::set(std::string_view words, const Look& look, double width_pt) const
{
    auto layout = owned(pango_layout_new(context_.get()));
    pango_layout_set_font_description(layout.get(), description_of(look).get());
    pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
    if (width_pt >= 0.0) {
        pango_layout_set_width(layout.get(), static_cast<int>(width_pt * PANGO_SCALE));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
        pango_layout_set_alignment(layout.get(), alignment_of(look.align));
    }
    return {std::move(layout), look.grey};
}

void draw_line(cairo_t* canvas, double x1_pt, double y1_pt, double x2_pt, double y2_pt, double width_pt,
               double grey)
{
    cairo_set_source_rgb(canvas, grey, grey, grey);
    cairo_set_line_width(canvas, width_pt);
    cairo_move_to(canvas, x1_pt, y1_pt);
    cairo_line_to(canvas, x2_pt, y2_pt);
    cairo_stroke(canvas);
}

} // namespace harpkeep::report
