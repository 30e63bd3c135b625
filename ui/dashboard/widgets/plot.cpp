// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/plot.hpp"

#include "ui/dashboard/widgets/marks.hpp"
#include "ui/dashboard/widgets/plot_frame.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

constexpr float least_width = 160.0F;
constexpr float least_height = 120.0F;

void add_bands(Picture& picture, const PlotModel& model, const Frame& frame, const Palette& palette)
{
    for (const auto& band : model.bands) {
        const Colour colour = with_alpha(palette[band.tint], band.alpha);
        for (std::size_t i = 1; i < band.points.size(); ++i) {
            const auto& a = band.points[i - 1];
            const auto& b = band.points[i];
            const double low_x = std::max(a.x, frame.x.low);
            const double high_x = std::min(b.x, frame.x.high);
            if (!(low_x < high_x) || !std::isfinite(a.low + a.high + b.low + b.high)) continue;
            picture.shapes.push_back(AreaShape{{{frame.at_x(low_x), frame.at_y(a.high)},
                                                {frame.at_x(high_x), frame.at_y(b.high)},
                                                {frame.at_x(high_x), frame.at_y(b.low)},
                                                {frame.at_x(low_x), frame.at_y(a.low)}},
                                               colour});
        }
    }
}

/// A wedge on a drawn line, a ring on a dashed one: told apart also where there is no room for the word.
void add_event_mark(Picture& picture, const PlotEvent& event, float x, const Frame& frame, Colour colour)
{
    if (event.dashed) {
        picture.shapes.push_back(DiscShape{{x, frame.top - 4.0F}, 4.0F, colour, false, 2.0F});
        return;
    }
    picture.shapes.push_back(AreaShape{
        {{x - 5.0F, frame.top - 7.0F}, {x + 5.0F, frame.top - 7.0F}, {x, frame.top + 1.0F}}, colour});
}

void add_events(Picture& picture, const PlotModel& model, const Frame& frame, const Palette& palette,
                const TextMeasure& measure)
{
    constexpr float reach = 8.0F; // of a mark, with a gap to the next word
    std::vector<const PlotEvent*> shown;
    for (const auto& event : model.events)
        if (frame.holds_x(event.x)) shown.push_back(&event);
    std::stable_sort(shown.begin(), shown.end(), [](const auto* a, const auto* b) { return a->x < b->x; });
    const Colour colour = palette[Tint::wood];
    float taken = frame.left;
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const auto& event = *shown[i];
        const float x = frame.at_x(event.x);
        picture.line({x, frame.top}, {x, frame.bottom}, with_alpha(colour, 190), 1.5F, event.dashed);
        add_event_mark(picture, event, x, frame, colour);
        picture.hot_spots.push_back({{x, frame.top - 3.0F}, 9.0F, event.note});
        // The word stands to the right of its mark, else to the left, else not at all.
        const float width = measure(event.word, small_text, false);
        const float free_until = i + 1 < shown.size() ? frame.at_x(shown[i + 1]->x) - reach : picture.width;
        const bool right = x + reach >= taken && x + reach + width <= free_until;
        const bool left = x - reach - width >= taken;
        const float begin = right ? x + reach : x - reach - width;
        if (right || left) picture.text({begin, frame.top - 4.0F}, event.word, colour, small_text);
        taken = std::max(taken, x + reach) + (right ? width + 6.0F : 0.0F);
    }
}

constexpr float legend_line = 18.0F;
constexpr float sample_room = 22.0F; ///< of the line or mark before a name
constexpr float legend_gap = 14.0F;

/// The names of the series in lines from the right edge; beside the title of the upright axis when they fit
/// there, else under it.
struct Legend {
    struct Line {
        std::vector<const PlotSeries*> series;
        float width = 0.0F;
    };
    std::vector<Line> lines;
    bool beside_title = true;

    [[nodiscard]] float added_height() const
    {
        return beside_title ? 0.0F : legend_line * static_cast<float>(lines.size());
    }
};

Legend legend_of(const PlotModel& model, float width, const TextMeasure& measure)
{
    Legend legend;
    if (model.series.size() + model.bands.size() < 2) return legend;
    for (const auto& series : model.series) {
        if (series.name.empty()) continue;
        const float wide = sample_room + measure(series.name, small_text, false);
        if (legend.lines.empty() || legend.lines.back().width + legend_gap + wide > width)
            legend.lines.emplace_back();
        auto& line = legend.lines.back();
        line.width += wide + (line.series.empty() ? 0.0F : legend_gap);
        line.series.push_back(&series);
    }
    if (legend.lines.empty()) return legend;
    const float title = measure(model.y.title, small_text, false);
    legend.beside_title =
        legend.lines.size() == 1 && title + legend_gap + legend.lines.front().width <= width;
    return legend;
}

void add_legend(Picture& picture, const Legend& legend, const Palette& palette, const TextMeasure& measure)
{
    float y = legend.beside_title ? 9.0F : 9.0F + legend_line;
    for (const auto& line : legend.lines) {
        float left = picture.width - line.width;
        for (const auto* series : line.series) {
            if (series->look == SeriesLook::marks)
                add_mark(picture, {left + 12.0F, y}, 4.5F, State::fine, Lean::level, palette);
            else
                picture.line({left, y}, {left + 16.0F, y}, palette[series->tint], 2.0F, series->dashed);
            picture.text({left + sample_room, y}, series->name, palette[Tint::ink], small_text);
            left += sample_room + measure(series->name, small_text, false) + legend_gap;
        }
        y += legend_line;
    }
}

} // namespace

Picture plot_picture(const PlotModel& model, float width, float height, const Palette& palette,
                     const TextMeasure& measure)
{
    Picture picture;
    picture.width = std::max(width, least_width);
    picture.height = std::max(height, least_height);
    const Legend legend = legend_of(model, picture.width, measure);
    Frame frame{40.0F,
                (model.events.empty() ? 24.0F : 40.0F) + legend.added_height(),
                picture.width - 6.0F,
                picture.height - (model.x.title.empty() ? 24.0F : 38.0F),
                x_range(model),
                y_range(model)};
    Picture axes{picture.width, picture.height, {}, {}};
    add_axes(axes, model, frame, palette, measure); // settles the frame's left edge
    add_bands(picture, model, frame, palette);
    picture.shapes.insert(picture.shapes.end(), axes.shapes.begin(), axes.shapes.end());
    add_events(picture, model, frame, palette, measure);
    for (const auto& series : model.series) add_series(picture, series, frame, palette);
    add_legend(picture, legend, palette, measure);
    return picture;
}

} // namespace harpkeep::dashboard
