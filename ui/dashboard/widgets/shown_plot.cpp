// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/shown_plot.hpp"

namespace harpkeep::dashboard {

const Picture& ShownPlot::picture(const Ui& ui, float width, float height)
{
    if (width != width_ || height != height_ || ui.scale != scale_ || ui.palette != palette_) {
        picture_ = plot_picture(model_, width, height, *ui.palette, measure_for_screen(ui));
        width_ = width;
        height_ = height;
        scale_ = ui.scale;
        palette_ = ui.palette;
        ++made_;
    }
    return picture_;
}

} // namespace harpkeep::dashboard
