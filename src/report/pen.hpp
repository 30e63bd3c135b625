// SPDX-License-Identifier: MIT
#pragma once

#include "report/document.hpp"

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <string_view>

namespace harpkeep::report {

/// How words look. Sizes in points; grey 0 is black.
struct Look {
    double size_pt = 9.0;
    bool bold = false;
    double grey = 0.0;
    Align align = Align::left;
};

/// Words broken into lines and ready to be drawn.
class SetText {
  public:
    SetText(std::shared_ptr<PangoLayout> layout, double grey) : layout_(std::move(layout)), grey_(grey) {}
    [[nodiscard]] double width_pt() const;
    [[nodiscard]] double height_pt() const;
    /// From the top of the box to the baseline of the first line.
    [[nodiscard]] double baseline_pt() const;
    [[nodiscard]] int line_count() const;
    void draw(cairo_t* canvas, double x_pt, double y_pt) const;
    /// One of the lines alone, its top at y.
    void draw_line_alone(cairo_t* canvas, int line, double x_pt, double y_pt) const;

  private:
    std::shared_ptr<PangoLayout> layout_;
    double grey_;
};

/// Sets words in DejaVu Sans. Measures without hinting, so that lines break alike on every computer.
class Pen {
  public:
    Pen();
    /// Whether the font that every report is set in is there.
    [[nodiscard]] bool has_font() const;
    /// Given  width_pt  the lines are broken to it; negative: one line, however long
    [[nodiscard]] SetText set(std::string_view words, const Look& look, double width_pt = -1.0) const;

  private:
    std::shared_ptr<PangoFontMap> fonts_;
    std::shared_ptr<PangoContext> context_;
};

/// A straight line in grey.
void draw_line(cairo_t* canvas, double x1_pt, double y1_pt, double x2_pt, double y2_pt, double width_pt,
               double grey);

inline constexpr double points_in_mm = 72.0 / 25.4;

} // namespace harpkeep::report
