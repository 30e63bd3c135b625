// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/models/common.hpp"
#include "ui/dashboard/widgets/picture.hpp"

namespace harpkeep::dashboard {

/// How far to the side the middle of the string is drawn, -1 to 1, for a deviation in cents: logarithmic, so
/// that a tenth of a cent and a quarter-tone both show.
[[nodiscard]] float bend_of(double cents);

/// The string that is tuned, seen from the front between neck and soundboard: bent to the left when it is too
/// low, to the right when too high, straight between its posts when true. The shade around it is as wide as
/// twice the uncertainty.
///
/// Given  off   deviation from the target in cents; nothing draws the string at rest and faint
///        good  half the distance of the posts, in cents
[[nodiscard]] Picture bent_string_picture(const std::optional<Figure>& off, double good_cents, Colour string,
                                          float width, float height, const Palette& palette);

} // namespace harpkeep::dashboard
