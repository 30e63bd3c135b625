// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/widgets/plot.hpp"

#include <limits>

namespace harpkeep::dashboard {

// What the parts of a plot's drawing share.

inline constexpr float small_text = 12.0F;

/// The least range that holds some values.
struct Range {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();

    void hold(double value); ///< left out when it is no number
    /// Widened by a share of itself and by what the axis wants; never empty.
    [[nodiscard]] Range settled(const PlotAxis& axis, double margin) const;
};

/// The frame of the plot and the way from data to picture.
struct Frame {
    float left, top, right, bottom;
    Range x, y;

    [[nodiscard]] float at_x(double value) const;
    [[nodiscard]] float at_y(double value) const;
    [[nodiscard]] bool holds_x(double value) const { return value >= x.low && value <= x.high; }
};

[[nodiscard]] Range x_range(const PlotModel& model);
[[nodiscard]] Range y_range(const PlotModel& model);

/// Scales and their ticks; settles the frame's left edge by the widest of them.
void add_axes(Picture& picture, const PlotModel& model, Frame& frame, const Palette& palette,
              const TextMeasure& measure);
void add_series(Picture& picture, const PlotSeries& series, const Frame& frame, const Palette& palette);

} // namespace harpkeep::dashboard
