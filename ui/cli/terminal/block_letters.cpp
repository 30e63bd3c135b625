// SPDX-License-Identifier: MIT
#include "ui/cli/terminal/block_letters.hpp"

#include <array>

namespace harpkeep::cli {

namespace {

/// Seven rows of dots; the width is that of the first row.
struct BlockLetter {
    char32_t character;
    std::array<std::string_view, block_letter_rows> dots;
};

constexpr std::array<BlockLetter, 25> block_letters{{
    {U'0', {" ### ", "#   #", "#   #", "#   #", "#   #", "#   #", " ### "}},
    {U'1', {"  #  ", " ##  ", "# #  ", "  #  ", "  #  ", "  #  ", "#####"}},
    {U'2', {" ### ", "#   #", "    #", "  ## ", " #   ", "#    ", "#####"}},
    {U'3', {"#### ", "    #", "    #", " ### ", "    #", "    #", "#### "}},
    {U'4', {"#   #", "#   #", "#   #", "#####", "    #", "    #", "    #"}},
    {U'5', {"#####", "#    ", "#### ", "    #", "    #", "#   #", " ### "}},
    {U'6', {" ### ", "#    ", "#    ", "#### ", "#   #", "#   #", " ### "}},
    {U'7', {"#####", "    #", "   # ", "   # ", "  #  ", "  #  ", "  #  "}},
    {U'8', {" ### ", "#   #", "#   #", " ### ", "#   #", "#   #", " ### "}},
    {U'9', {" ### ", "#   #", "#   #", " ####", "    #", "    #", " ### "}},
    {U'A', {" ### ", "#   #", "#   #", "#####", "#   #", "#   #", "#   #"}},
    {U'B', {"#### ", "#   #", "#   #", "#### ", "#   #", "#   #", "#### "}},
    {U'C', {" ####", "#    ", "#    ", "#    ", "#    ", "#    ", " ####"}},
    {U'D', {"#### ", "#   #", "#   #", "#   #", "#   #", "#   #", "#### "}},
    {U'E', {"#####", "#    ", "#    ", "#### ", "#    ", "#    ", "#####"}},
    {U'F', {"#####", "#    ", "#    ", "#### ", "#    ", "#    ", "#    "}},
    {U'G', {" ####", "#    ", "#    ", "#  ##", "#   #", "#   #", " ### "}},
    {U'\u266D', {"#   ", "#   ", "# # ", "## #", "#  #", "# # ", "##  "}},        // flat
    {U'\u266E', {"#   ", "#   ", "#  #", "####", "#  #", "   #", "   #"}},        // natural
    {U'\u266F', {" # # ", " # ##", "###  ", " # # ", "  ###", "## # ", " # # "}}, // sharp
    {U'+', {"     ", "     ", "  #  ", "#####", "  #  ", "     ", "     "}},
    {U'-', {"     ", "     ", "     ", "#####", "     ", "     ", "     "}},
    {U'.', {"  ", "  ", "  ", "  ", "  ", "##", "##"}},
    {U'?', {" ### ", "#   #", "    #", "  ## ", "  #  ", "     ", "  #  "}},
    {U' ', {"   ", "   ", "   ", "   ", "   ", "   ", "   "}},
}};

const BlockLetter* letter_of(char32_t character)
{
    if (character == U'\u2212') character = U'-'; // minus sign
    for (const BlockLetter& letter : block_letters)
        if (letter.character == character) return &letter;
    return nullptr;
}

} // namespace

int block_letter_width(std::string_view text, int stretch)
{
    int width = 0;
    for (const char32_t character : characters_of(text))
        if (const BlockLetter* letter = letter_of(character))
            width += (static_cast<int>(letter->dots[0].size()) + 1) * stretch;
    return width > 0 ? width - stretch : 0;
}

void put_block_letters(Canvas& canvas, int row, int column, std::string_view text, int stretch, Style style)
{
    for (const char32_t character : characters_of(text)) {
        const BlockLetter* letter = letter_of(character);
        if (!letter) continue;
        const auto width = static_cast<int>(letter->dots[0].size());
        for (int y = 0; y < block_letter_rows; ++y)
            for (int x = 0; x < width * stretch; ++x)
                if (letter->dots[static_cast<std::size_t>(y)][static_cast<std::size_t>(x / stretch)] == '#')
                    canvas.put(row + y, column + x, U'\u2588', style); // full block
        column += (width + 1) * stretch;
    }
}

} // namespace harpkeep::cli
