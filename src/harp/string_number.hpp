// SPDX-License-Identifier: MIT
#pragma once

#include "harp/string_place.hpp"

#include <algorithm>
#include <optional>

namespace harpkeep {

/// The number that owners give a place (common practice, no source): on harps that reach 1E it is string 1
/// and the strings above have names only; on harps that do not, as many lever harps, the highest is string 1.
///
/// Given    top  highest place of the harp
[[nodiscard]] constexpr std::optional<int> string_number(StringPlace place, StringPlace top)
{
    const int first = std::max(1, top.number_from_1e());
    const int number = place.number_from_1e() - first + 1;
    return number >= 1 ? std::optional{number} : std::nullopt;
}

} // namespace harpkeep
