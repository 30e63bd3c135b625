// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/widgets/plot.hpp"

namespace harpkeep::dashboard {

/// A plot with its picture, which is made anew only when size, colours or letters change: years of readings
/// cost a frame no more than weeks.
class ShownPlot {
  public:
    ShownPlot() = default;
    ShownPlot(PlotModel model) : model_(std::move(model)) {} // NOLINT: a plot is what is shown

    [[nodiscard]] const PlotModel& model() const { return model_; }
    [[nodiscard]] const Picture& picture(const Ui& ui, float width, float height);
    /// How often a picture was made, for tests.
    [[nodiscard]] int made() const { return made_; }

  private:
    PlotModel model_;
    Picture picture_;
    float width_ = 0.0F;
    float height_ = 0.0F;
    float scale_ = 0.0F;
    const Palette* palette_ = nullptr;
    int made_ = 0;
};

} // namespace harpkeep::dashboard
