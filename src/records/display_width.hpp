// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <string_view>

namespace harpkeep {

/// Columns that a text takes on a terminal: accents that combine take none, wide characters two.
///
/// Notes  Bytes that are not UTF-8 count one each.
[[nodiscard]] std::size_t display_width(std::string_view text);

} // namespace harpkeep
