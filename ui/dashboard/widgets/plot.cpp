// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/plot.hpp"

#include "ui/dashboard/widgets/marks.hpp"
#include "ui/dashboard/widgets/ticks.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace harpkeep::dashboard {

namespace {

constexpr float small_text = 12.0F;
constexpr float least_width = 160.0F;
constexpr float least_height = 120.0F;

struct Range {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();

    void hold(double value)
    {
        if (!std::isfinite(value)) return;
        low = std::min(low, value);
        high = std::max(high, value);
    }
    [[nodiscard]] Range settled(const PlotAxis& axis, double margin) const
    {
        Range out = *this;
        if (!(out.low <= out.high)) out = {0.0, 1.0};
        const double spread = std::max(out.high - out.low, 1e-9);
        out.low -= margin * spread;
        out.high += margin * spread;
        if (out.high - out.low < 1e-6) out = {out.low - 0.5, out.high + 0.5};
        if (axis.low) out.low = *axis.low;
        if (axis.high) out.high = *axis.high;
        if (!(out.low < out.high)) out.high = out.low + 1.0;
        return out;
    }
};

/// The frame of the plot and the way from data to picture.
struct Frame {
    float left, top, right, bottom;
    Range x, y;

    [[nodiscard]] float at_x(double value) const
    {
        const double share = std::clamp((value - x.low) / (x.high - x.low), -4.0, 5.0);
        return left + static_cast<float>(share) * (right - left);
    }
    [[nodiscard]] float at_y(double value) const
    {
        const double share = std::clamp((value - y.low) / (y.high - y.low), 0.0, 1.0);
        return bottom - static_cast<float>(share) * (bottom - top);
    }
    [[nodiscard]] bool holds_x(double value) const { return value >= x.low && value <= x.high; }
};

bool usable(const PlotPoint& p)
{
    return std::isfinite(p.x) && std::isfinite(p.y);
}

Range x_range(const PlotModel& model)
{
    Range range;
    for (const auto& series : model.series)
        for (const auto& p : series.points) range.hold(p.x);
    for (const auto& band : model.bands)
        for (const auto& p : band.points)
            if (band.points.size() > 2) range.hold(p.x);
    for (const auto& place : model.x.places) range.hold(place.first);
    return range.settled(model.x, 0.02);
}

Range y_range(const PlotModel& model)
{
    Range range;
    for (const auto& series : model.series)
        for (const auto& p : series.points) {
            range.hold(p.y - p.uncertainty);
            range.hold(p.y + p.uncertainty);
            if (series.look == SeriesLook::columns) range.hold(0.0);
        }
    for (const auto& band : model.bands)
        for (const auto& p : band.points) {
            range.hold(p.low);
            range.hold(p.high);
        }
    return range.settled(model.y, 0.06);
}

std::vector<Tick> ticks_of(const PlotAxis& axis, const Range& range, int most)
{
    if (axis.kind == AxisKind::date) return date_ticks(range.low, range.high, most);
    if (axis.kind == AxisKind::number) return number_ticks(range.low, range.high, most);
    std::vector<Tick> ticks;
    const auto every = std::max<std::size_t>(1, (axis.places.size() + static_cast<std::size_t>(most) - 1) /
                                                    static_cast<std::size_t>(most));
    for (std::size_t i = 0; i < axis.places.size(); i += every)
        ticks.push_back({axis.places[i].first, axis.places[i].second});
    return ticks;
}

void add_axes(Picture& picture, const PlotModel& model, Frame& frame, const Palette& palette,
              const TextMeasure& measure)
{
    const auto y_ticks =
        ticks_of(model.y, frame.y, std::max(2, static_cast<int>((frame.bottom - frame.top) / 34.0F)));
    float widest = 0.0F;
    for (const auto& tick : y_ticks) widest = std::max(widest, measure(tick.label, small_text, false));
    frame.left = widest + 10.0F;
    for (const auto& tick : y_ticks) {
        const float y = frame.at_y(tick.at);
        picture.line({frame.left, y}, {frame.right, y},
                     with_alpha(palette[Tint::line], tick.at == 0.0 ? 255 : 110));
        picture.text({frame.left - 6.0F, y}, tick.label, palette[Tint::quiet_ink], small_text, Across::right);
    }
    const auto x_ticks =
        ticks_of(model.x, frame.x, std::max(2, static_cast<int>((frame.right - frame.left) / 64.0F)));
    float taken = -1e9F;
    for (const auto& tick : x_ticks) {
        const float x = frame.at_x(tick.at);
        const float half = 0.5F * measure(tick.label, small_text, false);
        picture.line({x, frame.bottom}, {x, frame.bottom + 4.0F}, palette[Tint::line]);
        const float middle = std::clamp(x, half, picture.width - half);
        if (middle - half < taken) continue;
        picture.text({middle, frame.bottom + 13.0F}, tick.label, palette[Tint::quiet_ink], small_text,
                     Across::centre);
        taken = middle + half + 8.0F;
    }
    picture.line({frame.left, frame.bottom}, {frame.right, frame.bottom}, palette[Tint::line], 1.5F);
    picture.text({0.0F, 9.0F}, model.y.title, palette[Tint::quiet_ink], small_text);
    if (!model.x.title.empty())
        picture.text({frame.right, picture.height - 8.0F}, model.x.title, palette[Tint::quiet_ink],
                     small_text, Across::right);
}

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

void add_events(Picture& picture, const PlotModel& model, const Frame& frame, const Palette& palette,
                const TextMeasure& measure)
{
    float taken = -1e9F;
    for (const auto& event : model.events) {
        if (!frame.holds_x(event.x)) continue;
        const float x = frame.at_x(event.x);
        picture.line({x, frame.top}, {x, frame.bottom}, with_alpha(palette[Tint::wood], 190), 1.5F,
                     event.dashed);
        picture.shapes.push_back(
            AreaShape{{{x - 5.0F, frame.top - 7.0F}, {x + 5.0F, frame.top - 7.0F}, {x, frame.top + 1.0F}},
                      palette[Tint::wood]});
        const float width = measure(event.word, small_text, false);
        const float begin = std::min(x + 8.0F, picture.width - width);
        if (begin > taken) {
            picture.text({begin, frame.top - 4.0F}, event.word, palette[Tint::wood], small_text);
            taken = begin + width + 6.0F;
        }
        picture.hot_spots.push_back({{x, frame.top - 3.0F}, 9.0F, event.note});
    }
}

/// All points of one column of the picture.
struct Bunch {
    double x = 0.0, low = 0.0, high = 0.0, sum = 0.0;
    int count = 0;
};

/// A dense line as what its points span in each column, and their mean.
void add_dense_line(Picture& picture, const std::vector<PlotPoint>& points, const Frame& frame, Colour colour)
{
    constexpr float column_width = 2.0F;
    std::vector<Bunch> bunches;
    float column = -1e9F;
    for (const auto& p : points) {
        if (!frame.holds_x(p.x)) continue;
        const float here = std::floor(frame.at_x(p.x) / column_width);
        if (here != column || bunches.empty()) bunches.push_back({p.x, p.y, p.y, 0.0, 0});
        column = here;
        auto& bunch = bunches.back();
        bunch.low = std::min(bunch.low, p.y);
        bunch.high = std::max(bunch.high, p.y);
        bunch.sum += p.y;
        ++bunch.count;
    }
    LineShape mean{{}, colour, 1.6F, false, false};
    for (std::size_t i = 0; i < bunches.size(); ++i) {
        const auto& b = bunches[i];
        const float x = frame.at_x(b.x);
        picture.box({x, frame.at_y(b.high)}, {x + column_width, frame.at_y(b.low)}, with_alpha(colour, 80));
        // The mean over five columns: what the eye should follow.
        double sum = 0.0;
        int count = 0;
        for (std::size_t k = i >= 2 ? i - 2 : 0; k < std::min(i + 3, bunches.size()); ++k) {
            sum += bunches[k].sum;
            count += bunches[k].count;
        }
        mean.points.push_back({x, frame.at_y(sum / count)});
    }
    if (mean.points.size() > 1) picture.shapes.push_back(std::move(mean));
}

void add_line(Picture& picture, const PlotSeries& series, const Frame& frame, Colour colour)
{
    std::vector<PlotPoint> points;
    std::copy_if(series.points.begin(), series.points.end(), std::back_inserter(points), usable);
    if (static_cast<float>(points.size()) > frame.right - frame.left) {
        add_dense_line(picture, points, frame, colour);
        return;
    }
    LineShape line{{}, colour, 2.0F, series.dashed, false};
    for (const auto& p : points) {
        if (!frame.holds_x(p.x)) continue;
        const Point at{frame.at_x(p.x), frame.at_y(p.y)};
        if (series.look == SeriesLook::steps && !line.points.empty())
            line.points.push_back({at.x, line.points.back().y});
        line.points.push_back(at);
        if (!p.note.empty()) picture.hot_spots.push_back({at, 6.0F, p.note});
    }
    if (line.points.size() > 1) picture.shapes.push_back(std::move(line));
}

void add_marks(Picture& picture, const PlotSeries& series, const Frame& frame, const Palette& palette)
{
    for (const auto& p : series.points) {
        if (!usable(p) || !frame.holds_x(p.x)) continue;
        const Point at{frame.at_x(p.x), frame.at_y(p.y)};
        if (p.uncertainty > 0.0) {
            const float low = frame.at_y(p.y - p.uncertainty);
            const float high = frame.at_y(p.y + p.uncertainty);
            const Colour bar = palette[tint_of(p.state)];
            picture.line({at.x, low}, {at.x, high}, bar, 1.5F);
            picture.line({at.x - 3.0F, low}, {at.x + 3.0F, low}, bar, 1.5F);
            picture.line({at.x - 3.0F, high}, {at.x + 3.0F, high}, bar, 1.5F);
        }
        add_mark(picture, at, 5.5F, p.state, p.y < 0.0 ? Lean::narrow : Lean::wide, palette);
        if (!p.note.empty()) picture.hot_spots.push_back({at, 8.0F, p.note});
    }
}

void add_columns(Picture& picture, const PlotSeries& series, const Frame& frame, const Palette& palette)
{
    if (series.points.empty()) return;
    const float slot = (frame.right - frame.left) / static_cast<float>(frame.x.high - frame.x.low);
    const float half = std::clamp(0.36F * slot, 1.0F, 14.0F);
    for (const auto& p : series.points) {
        if (!usable(p) || !frame.holds_x(p.x)) continue;
        const float x = frame.at_x(p.x);
        const float y = frame.at_y(p.y);
        const float base = frame.at_y(0.0);
        picture.box({x - half, std::min(y, base)}, {x + half, std::max(y, base)},
                    palette[p.tint.value_or(series.tint)], 1.5F);
        if (!p.note.empty()) picture.hot_spots.push_back({{x, y}, std::max(half, 8.0F), p.note});
    }
}

void add_legend(Picture& picture, const PlotModel& model, const Palette& palette, const TextMeasure& measure)
{
    float right = picture.width;
    for (auto series = model.series.rbegin(); series != model.series.rend(); ++series) {
        if (series->name.empty() || model.series.size() + model.bands.size() < 2) continue;
        right -= measure(series->name, small_text, false);
        picture.text({right, 9.0F}, series->name, palette[Tint::ink], small_text);
        const Colour colour = palette[series->tint];
        if (series->look == SeriesLook::marks)
            add_mark(picture, {right - 10.0F, 9.0F}, 4.5F, State::fine, Lean::level, palette);
        else
            picture.line({right - 22.0F, 9.0F}, {right - 6.0F, 9.0F}, colour, 2.0F, series->dashed);
        right -= 36.0F;
    }
}

} // namespace

Picture plot_picture(const PlotModel& model, float width, float height, const Palette& palette,
                     const TextMeasure& measure)
{
    Picture picture;
    picture.width = std::max(width, least_width);
    picture.height = std::max(height, least_height);
    Frame frame{40.0F,
                model.events.empty() ? 24.0F : 40.0F,
                picture.width - 6.0F,
                picture.height - (model.x.title.empty() ? 24.0F : 38.0F),
                x_range(model),
                y_range(model)};
    Picture axes{picture.width, picture.height, {}, {}};
    add_axes(axes, model, frame, palette, measure); // settles the frame's left edge
    add_bands(picture, model, frame, palette);
    picture.shapes.insert(picture.shapes.end(), axes.shapes.begin(), axes.shapes.end());
    add_events(picture, model, frame, palette, measure);
    for (const auto& series : model.series) {
        if (series.look == SeriesLook::marks)
            add_marks(picture, series, frame, palette);
        else if (series.look == SeriesLook::columns)
            add_columns(picture, series, frame, palette);
        else
            add_line(picture, series, frame, palette[series.tint]);
    }
    add_legend(picture, model, palette, measure);
    return picture;
}

} // namespace harpkeep::dashboard
