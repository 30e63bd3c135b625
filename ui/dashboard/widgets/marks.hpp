// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/widgets/picture.hpp"

namespace harpkeep::dashboard {

[[nodiscard]] Tint tint_of(State state);

/// Which side of its band a figure lies on, shown by the way the mark points.
enum class Lean { narrow, level, wide };

/// Draws the mark of a state, each with a shape of its own:
///   fine          a small filled dot, quiet
///   watch         an open diamond
///   not proven    an open ring
///   out           a filled wedge: pointing up when the step is too wide, down when too narrow
///   not measured  a short bar
///
/// Given  radius  half of the mark's height, in units of design
void add_mark(Picture& picture, Point centre, float radius, State state, Lean lean, const Palette& palette);

} // namespace harpkeep::dashboard
