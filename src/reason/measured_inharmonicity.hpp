// SPDX-License-Identifier: MIT
#pragma once

#include "measure/reading.hpp"
#include "strings/inharmonicity_check.hpp"

#include <optional>
#include <span>

namespace harpkeep {

/// B of a string at its open length, from every trusted reading of it in one check.
///
/// Given      the readings of a check
/// Returns    the median of what each reading says, with the scatter between them as uncertainty; nothing
/// without a
///            trusted reading. One reading alone is given 20 %, the project's own choice.
/// Notes      A disc shortens the string at the same tension, so B grows with 1 / L^2: by 2^(1/6) for each
/// semitone.
///            Readings in other positions are taken back to the open length by that.
[[nodiscard]] std::optional<MeasuredInharmonicity> measured_inharmonicity(std::span<const Reading> readings,
                                                                          StringPlace place);

} // namespace harpkeep
