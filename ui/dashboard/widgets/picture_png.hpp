// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "ui/dashboard/widgets/picture.hpp"

namespace harpkeep::dashboard {

/// The picture as a PNG file in memory, `pixels_per_unit` pixels for each unit of design.
[[nodiscard]] Result<std::string> png_of(const Picture& picture, Colour ground, double pixels_per_unit = 2.0);

/// Measures text as png_of draws it.
[[nodiscard]] TextMeasure measure_for_paper();

} // namespace harpkeep::dashboard
