// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/plot_frame.hpp"
#include "ui/dashboard/widgets/ticks.hpp"

#include <algorithm>
#include <cmath>

namespace harpkeep::dashboard {

void Range::hold(double value)
{
    if (!std::isfinite(value)) return;
    low = std::min(low, value);
    high = std::max(high, value);
}

Range Range::settled(const PlotAxis& axis, double margin) const
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

float Frame::at_x(double value) const
{
    const double share = std::clamp((value - x.low) / (x.high - x.low), -4.0, 5.0);
    return left + static_cast<float>(share) * (right - left);
}

float Frame::at_y(double value) const
{
    const double share = std::clamp((value - y.low) / (y.high - y.low), 0.0, 1.0);
    return bottom - static_cast<float>(share) * (bottom - top);
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

namespace {

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

} // namespace

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

} // namespace harpkeep::dashboard
