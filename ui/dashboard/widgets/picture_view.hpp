// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"
#include "ui/dashboard/widgets/shown_plot.hpp"

namespace harpkeep::dashboard {

/// Paints the picture at the cursor without taking part in the layout.
void paint(const Ui& ui, const Picture& picture, ImVec2 origin);

/// Places the picture as an item; under the pointer, the nearest hot spot tells what it is.
void show_picture(const Ui& ui, std::string_view name, const Picture& picture);

/// A plot with its title and two buttons that export it.
///
/// Given  size_units  the room for title and plot together, in units of design
void show_plot(const Ui& ui, std::string_view name, ShownPlot& plot, float width, float height,
               Actions& actions);

} // namespace harpkeep::dashboard
