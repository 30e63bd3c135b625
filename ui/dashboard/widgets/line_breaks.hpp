// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>

namespace harpkeep::dashboard {

/// The text with its lines broken at spaces, in the font in use.
///
/// Given  width  in pixels of the screen
/// Notes  ImGui itself also breaks after a point or comma, and so tears figures such as -5.6 apart. A word
/// longer
///        than a line is left to it.
[[nodiscard]] std::string broken_at_spaces(std::string_view text, float width);

} // namespace harpkeep::dashboard
