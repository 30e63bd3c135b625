// SPDX-License-Identifier: MIT
#include "report/piece.hpp"

#include "units/format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

namespace harpkeep::report {

namespace {

constexpr double axis_width_pt = 24.0;
constexpr double mark_size_pt = 1.9;
constexpr double largest_scale_cents = 40.0; ///< errors beyond are drawn at the edge with an arrow

struct Band {
    double left_pt = 0.0;
    double top_pt = 0.0;
    double width_pt = 0.0;
    double height_pt = 0.0;
    double scale_cents = 10.0; ///< from the middle to the edge

    [[nodiscard]] double y_of(double cents) const
    {
        const double held = std::clamp(cents, -scale_cents, scale_cents);
        return top_pt + 0.5 * height_pt * (1.0 - held / scale_cents);
    }
};

/// Where a string's line stands, by its rank along the neck.
using Places = std::map<StringPlace, double>;

Places places_of(const NeckChart& chart, double left_pt, double width_pt)
{
    Places places;
    const double slot = width_pt / static_cast<double>(std::max<std::size_t>(1, chart.strings.size()));
    for (std::size_t i = 0; i < chart.strings.size(); ++i)
        places[chart.strings[i]] = left_pt + (static_cast<double>(i) + 0.5) * slot;
    return places;
}

/// A round number of cents that holds the points of all panels.
double scale_of(const NeckChart& chart)
{
    double most = 8.0;
    for (const ChartPanel& panel : chart.panels) {
        for (const ChartPoint& point : panel.points) {
            most = std::max(most, std::abs(point.cents) + point.half_interval_cents);
            if (point.before_cents) most = std::max(most, std::abs(*point.before_cents));
        }
        for (const auto& [place, band] : panel.tolerances)
            most = std::max({most, std::abs(band.lower), std::abs(band.upper)});
    }
    return std::min(largest_scale_cents, 5.0 * std::ceil(1.05 * most / 5.0));
}

double tick_step(double scale_cents)
{
    return scale_cents <= 15.0 ? 5.0 : scale_cents <= 30.0 ? 10.0 : 20.0;
}

void draw_mark(cairo_t* canvas, Mark mark, double x, double y)
{
    cairo_set_source_rgb(canvas, 0.0, 0.0, 0.0);
    cairo_set_line_width(canvas, 0.8);
    cairo_new_path(canvas);
    const double r = mark_size_pt;
    switch (mark) {
    case Mark::out:
        cairo_rectangle(canvas, x - 1.1 * r, y - 1.1 * r, 2.2 * r, 2.2 * r);
        cairo_fill(canvas);
        return;
    case Mark::not_proven:
        cairo_move_to(canvas, x, y - 1.35 * r);
        cairo_line_to(canvas, x + 1.35 * r, y);
        cairo_line_to(canvas, x, y + 1.35 * r);
        cairo_line_to(canvas, x - 1.35 * r, y);
        cairo_close_path(canvas);
        break;
    case Mark::within:
    case Mark::watch:
        cairo_arc(canvas, x, y, r, 0.0, 2.0 * std::numbers::pi);
        break;
    }
    cairo_set_source_rgb(canvas, 1.0, 1.0, 1.0);
    cairo_fill_preserve(canvas);
    cairo_set_source_rgb(canvas, 0.0, 0.0, 0.0);
    cairo_stroke(canvas);
    if (mark == Mark::watch) {
        cairo_arc(canvas, x, y, 0.45 * r, 0.0, 2.0 * std::numbers::pi);
        cairo_fill(canvas);
    }
}

/// A triangle at the edge: the point lies beyond.
void draw_beyond(cairo_t* canvas, double x, double y, bool upwards)
{
    const double way = upwards ? -1.0 : 1.0;
    cairo_move_to(canvas, x, y + way * 3.5);
    cairo_line_to(canvas, x + 2.6, y);
    cairo_line_to(canvas, x - 2.6, y);
    cairo_close_path(canvas);
    cairo_set_source_rgb(canvas, 0.0, 0.0, 0.0);
    cairo_fill(canvas);
}

void draw_ground(cairo_t* canvas, const ChartPanel& panel, const Band& band, const Places& places,
                 double slot, const Pen& pen)
{
    cairo_set_source_rgb(canvas, 0.9, 0.9, 0.9);
    for (const auto& [place, tolerance] : panel.tolerances) {
        const auto at = places.find(place);
        if (at == places.end()) continue;
        const double top = band.y_of(tolerance.upper);
        cairo_rectangle(canvas, at->second - 0.5 * slot, top, slot, band.y_of(tolerance.lower) - top);
        cairo_fill(canvas);
    }
    const double step = tick_step(band.scale_cents);
    for (double cents = -step * std::floor(band.scale_cents / step); cents <= band.scale_cents;
         cents += step) {
        const double y = band.y_of(cents);
        const bool zero = std::abs(cents) < 1e-9;
        draw_line(canvas, band.left_pt, y, band.left_pt + band.width_pt, y, zero ? 0.7 : 0.3,
                  zero ? 0.25 : 0.7);
        const auto label =
            pen.set(zero ? std::string{"0"} : format_signed(cents, 0), {.size_pt = 6.0, .grey = 0.25});
        label.draw(canvas, band.left_pt - 4.0 - label.width_pt(), y - 0.5 * label.height_pt());
    }
}

void draw_points(cairo_t* canvas, const ChartPanel& panel, const Band& band, const Places& places)
{
    for (const ChartPoint& point : panel.points) {
        const auto at = places.find(point.place);
        if (at == places.end()) continue;
        const double x = at->second;
        const double y = band.y_of(point.cents);
        draw_line(canvas, x, band.y_of(point.cents - point.half_interval_cents), x,
                  band.y_of(point.cents + point.half_interval_cents), 0.7, 0.0);
        if (point.before_cents) {
            const double before = band.y_of(*point.before_cents);
            draw_line(canvas, x, before, x, y, 0.6, 0.5);
            draw_line(canvas, x - 2.2, before, x + 2.2, before, 1.0, 0.45);
        }
        if (std::abs(point.cents) > band.scale_cents)
            draw_beyond(canvas, x, y, point.cents > 0.0);
        else
            draw_mark(canvas, point.mark, x, y);
    }
}

/// Letters under each string, C and F bold as they are coloured on the harp, and octave numbers below.
void draw_names(cairo_t* canvas, const NeckChart& chart, const Places& places, double y, const Pen& pen)
{
    const double size_pt = chart.strings.size() > 40 ? 5.6 : 6.4;
    std::map<int, std::pair<double, double>> octaves; // from where to where
    for (const StringPlace place : chart.strings) {
        const double x = places.at(place);
        const bool coloured = place.letter == Letter::C || place.letter == Letter::F;
        const auto name = pen.set(std::string(1, letter_name(place.letter)),
                                  {.size_pt = size_pt, .bold = coloured, .grey = coloured ? 0.0 : 0.3});
        name.draw(canvas, x - 0.5 * name.width_pt(), y);
        auto [octave, is_new] = octaves.try_emplace(place.harp_octave(), x, x);
        octave->second.second = x;
    }
    for (const auto& [octave, ends] : octaves) {
        const double line_y = y + 9.0;
        draw_line(canvas, ends.first - 2.5, line_y, ends.second + 2.5, line_y, 0.5, 0.4);
        const auto name = pen.set(fmt::format("{}", octave), {.size_pt = 6.4, .grey = 0.2});
        name.draw(canvas, 0.5 * (ends.first + ends.second - name.width_pt()), line_y + 1.0);
    }
}

constexpr double names_height_pt = 19.0;

Piece legend_piece(const NeckChart& chart, const Pen& pen)
{
    struct Entry {
        std::optional<Mark> mark; ///< nothing: the dash of the check before
        SetText words;
    };
    bool has_before = false;
    for (const ChartPanel& panel : chart.panels)
        for (const ChartPoint& point : panel.points) has_before |= point.before_cents.has_value();
    std::vector<Entry> entries;
    const Look look{.size_pt = 6.8, .grey = 0.2};
    for (const auto& [mark, words] : {std::pair{Mark::within, "within tolerance"},
                                      {Mark::watch, "within, to be watched"},
                                      {Mark::not_proven, "not proven"},
                                      {Mark::out, "out of tolerance"}})
        entries.push_back({mark, pen.set(words, look)});
    if (has_before) entries.push_back({std::nullopt, pen.set("before", look)});
    const auto rest = pen.set("bar: 95 % interval; grey: tolerance", look);
    return {.height_pt = rest.height_pt() + 2.0,
            .space_before_pt = 2.0,
            .draw = [entries, rest](cairo_t* canvas, double x, double y) {
                x += axis_width_pt;
                for (const Entry& entry : entries) {
                    const double middle = y + 0.5 * entry.words.height_pt();
                    if (entry.mark)
                        draw_mark(canvas, *entry.mark, x + 3.0, middle);
                    else
                        draw_line(canvas, x + 0.8, middle, x + 5.2, middle, 1.0, 0.45);
                    entry.words.draw(canvas, x + 8.0, y);
                    x += 8.0 + entry.words.width_pt() + 11.0;
                }
                rest.draw(canvas, x, y);
            }};
}

} // namespace

void add_pieces(Pieces& pieces, const NeckChart& chart, const Pen& pen, double width_pt)
{
    const double height_pt = chart.panel_height_mm * points_in_mm;
    const double scale = scale_of(chart);
    for (std::size_t i = 0; i < chart.panels.size(); ++i) {
        const bool last = i + 1 == chart.panels.size();
        const auto title = pen.set(chart.panels[i].title + ", cents off", {.size_pt = 7.0, .grey = 0.3});
        const double title_pt = title.height_pt() + 4.0;
        pieces.push_back(
            {.height_pt = title_pt + height_pt + (last ? names_height_pt : 0.0),
             .space_before_pt = i == 0 ? 2.0 : 7.0,
             .keep_with_next = true,
             .draw = [chart, i, last, title, title_pt, height_pt, width_pt, scale, pen](cairo_t* canvas,
                                                                                        double x, double y) {
                 const Band band{x + axis_width_pt, y + title_pt, width_pt - axis_width_pt, height_pt, scale};
                 const auto places = places_of(chart, band.left_pt, band.width_pt);
                 const double slot =
                     band.width_pt / static_cast<double>(std::max<std::size_t>(1, chart.strings.size()));
                 title.draw(canvas, band.left_pt, y);
                 draw_ground(canvas, chart.panels[i], band, places, slot, pen);
                 draw_points(canvas, chart.panels[i], band, places);
                 if (last) draw_names(canvas, chart, places, band.top_pt + height_pt + 3.0, pen);
             }});
    }
    pieces.push_back(legend_piece(chart, pen));
}

} // namespace harpkeep::report
