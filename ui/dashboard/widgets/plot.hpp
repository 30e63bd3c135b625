// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/widgets/picture.hpp"

#include <optional>

namespace harpkeep::dashboard {

struct PlotPoint {
    double x = 0.0;
    double y = 0.0;
    double uncertainty = 0.0; ///< half of the bar drawn through the point; 0 draws none
    State state = State::fine;
    std::string note;         ///< shown under the pointer
    std::optional<Tint> tint; ///< of a column; else the series'
};

enum class SeriesLook { marks, line, steps, columns };

struct PlotSeries {
    std::string name;
    SeriesLook look = SeriesLook::line;
    Tint tint = Tint::wood;
    bool dashed = false;
    std::vector<PlotPoint> points; ///< by rising x for lines and steps
};

/// A band between two curves.
struct PlotBandPoint {
    double x = 0.0;
    double low = 0.0;
    double high = 0.0;
};
struct PlotBand {
    std::string name;
    Tint tint = Tint::band;
    std::uint8_t alpha = 255;
    std::vector<PlotBandPoint> points;
};

/// A day or place to be marked by an upright line and a word at its head.
struct PlotEvent {
    double x = 0.0;
    std::string word;
    std::string note;
    bool dashed = false;
};

enum class AxisKind { number, date, places };

struct PlotAxis {
    std::string title; ///< with the unit: "error of the step in cents"
    AxisKind kind = AxisKind::number;
    std::optional<double> low; ///< else from the data
    std::optional<double> high;
    std::vector<std::pair<double, std::string>> places; ///< labels of AxisKind::places
};

struct PlotModel {
    std::string title;
    PlotAxis x;
    PlotAxis y;
    std::vector<PlotBand> bands; ///< drawn first
    std::vector<PlotEvent> events;
    std::vector<PlotSeries> series;
};

/// Draws a plot as a picture.
///
/// Given  width, height  in units of design; clamped to at least 160 by 120
/// Notes  points that are no numbers are left out; a line with more points than units of width is drawn as
///        the span of its points in each column with their mean, so that years of readings cost no more than
///        weeks
[[nodiscard]] Picture plot_picture(const PlotModel& model, float width, float height, const Palette& palette,
                                   const TextMeasure& measure);

} // namespace harpkeep::dashboard
