// SPDX-License-Identifier: MIT
#pragma once

#include "ui/cli/terminal/canvas.hpp"

#include <string_view>

namespace harpkeep::cli {

/// Height in rows of every block letter.
inline constexpr int block_letter_rows = 7;

/// Width in columns that a text takes in block letters.
///
/// Given      text     UTF-8: digits, A to G, flat, natural and sharp sign, + - . ? and space; others are
/// left out
///            stretch  columns for each dot: 2 to be read from two metres, 1 on a small terminal
[[nodiscard]] int block_letter_width(std::string_view text, int stretch);

/// Draws a text in block letters, its upper left corner at the cell.
void put_block_letters(Canvas& canvas, int row, int column, std::string_view text, int stretch,
                       Style style = {});

} // namespace harpkeep::cli
