// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/marks.hpp"
#include "ui/dashboard/widgets/plot_frame.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

namespace {

bool usable(const PlotPoint& p)
{
    return std::isfinite(p.x) && std::isfinite(p.y);
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

} // namespace

void add_series(Picture& picture, const PlotSeries& series, const Frame& frame, const Palette& palette)
{
    if (series.look == SeriesLook::marks)
        add_marks(picture, series, frame, palette);
    else if (series.look == SeriesLook::columns)
        add_columns(picture, series, frame, palette);
    else
        add_line(picture, series, frame, palette[series.tint]);
}

} // namespace harpkeep::dashboard
