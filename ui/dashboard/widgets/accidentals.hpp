// SPDX-License-Identifier: MIT
#pragma once

#include "harp/position.hpp"
#include "ui/dashboard/widgets/picture.hpp"

namespace harpkeep::dashboard {

/// Draws flat, natural or sharp with lines, so that it reads at every size; nothing for levers' positions.
///
/// Given  height  of the sign, in units of design
void add_accidental(Picture& picture, Point centre, float height, Position position, Colour colour);

} // namespace harpkeep::dashboard
