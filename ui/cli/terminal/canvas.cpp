// SPDX-License-Identifier: MIT
#include "ui/cli/terminal/canvas.hpp"

#include "base/expects.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::cli {

namespace {

// Select Graphic Rendition of ECMA-48: 1 bold, 2 faint, 31 to 34 the colours.
std::string select_style(const Style& style)
{
    std::string codes = "0";
    if (style.bold) codes += ";1";
    if (style.dim) codes += ";2";
    switch (style.ink) {
    case Ink::red:
        codes += ";31";
        break;
    case Ink::green:
        codes += ";32";
        break;
    case Ink::yellow:
        codes += ";33";
        break;
    case Ink::blue:
        codes += ";34";
        break;
    case Ink::normal:
        break;
    }
    return fmt::format("\x1b[{}m", codes);
}

/// How many bytes the first byte of a character promises; 0 when it can be none.
std::size_t length_of(unsigned char first)
{
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first < 0xE0) return 2;
    if (first >= 0xE0 && first < 0xF0) return 3;
    if (first >= 0xF0 && first < 0xF5) return 4;
    return 0;
}

} // namespace

std::u32string characters_of(std::string_view utf8)
{
    constexpr char32_t malformed = U'\uFFFD';
    std::u32string characters;
    for (std::size_t at = 0; at < utf8.size();) {
        const auto first = static_cast<unsigned char>(utf8[at]);
        const std::size_t length = length_of(first);
        if (length == 0 || at + length > utf8.size()) {
            characters += malformed;
            ++at;
            continue;
        }
        char32_t character = length == 1 ? first : first & (0x7FU >> length);
        bool whole = true;
        for (std::size_t k = 1; k < length; ++k) {
            const auto next = static_cast<unsigned char>(utf8[at + k]);
            whole &= (next & 0xC0U) == 0x80U;
            character = (character << 6U) | (next & 0x3FU);
        }
        characters += whole ? character : malformed;
        at += whole ? length : 1;
    }
    return characters;
}

std::string utf8_of(char32_t character)
{
    const auto tail = [&](unsigned shift) {
        return static_cast<char>(0x80U | ((character >> shift) & 0x3FU));
    };
    if (character < 0x80) return {static_cast<char>(character)};
    if (character < 0x800) return {static_cast<char>(0xC0U | (character >> 6U)), tail(0)};
    if (character < 0x10000) return {static_cast<char>(0xE0U | (character >> 12U)), tail(6), tail(0)};
    return {static_cast<char>(0xF0U | (character >> 18U)), tail(12), tail(6), tail(0)};
}

Canvas::Canvas(int rows, int columns) : rows_(rows), columns_(columns)
{
    HARPKEEP_EXPECTS(rows >= 0 && columns >= 0);
    cells_.resize(static_cast<std::size_t>(rows) * static_cast<std::size_t>(columns));
}

void Canvas::put(int row, int column, std::string_view text, Style style)
{
    for (const char32_t character : characters_of(text)) put(row, column++, character, style);
}

void Canvas::put(int row, int column, char32_t character, Style style)
{
    if (row < 0 || row >= rows_ || column < 0 || column >= columns_) return;
    cells_[static_cast<std::size_t>(row * columns_ + column)] = {character, style};
}

int Canvas::put_wrapped(int row, int column, int width, int most_rows, std::string_view text, Style style)
{
    const auto characters = characters_of(text);
    std::size_t at = 0;
    int used = 0;
    while (at < characters.size() && used < most_rows && width > 0) {
        std::size_t end = std::min(characters.size(), at + static_cast<std::size_t>(width));
        std::size_t next = end;
        if (end < characters.size() && characters[end] != U' ') {
            const auto space = characters.rfind(U' ', end);
            if (space != std::u32string::npos && space > at) {
                end = space;
                next = space;
            }
        }
        for (std::size_t k = at; k < end; ++k)
            put(row + used, column + static_cast<int>(k - at), characters[k], style);
        at = next;
        while (at < characters.size() && characters[at] == U' ') ++at;
        ++used;
    }
    return used;
}

std::string Canvas::text_of(int row) const
{
    std::string text;
    for (int column = 0; column < columns_; ++column)
        text += utf8_of(cells_[static_cast<std::size_t>(row * columns_ + column)].character);
    text.erase(text.find_last_not_of(' ') + 1);
    return text;
}

std::string Canvas::ansi_of(int row) const
{
    std::string text = fmt::format("\x1b[{};1H", row + 1);
    Style style;
    text += select_style(style);
    for (int column = 0; column < columns_; ++column) {
        const Cell& cell = cells_[static_cast<std::size_t>(row * columns_ + column)];
        if (cell.style != style) text += select_style(cell.style);
        style = cell.style;
        text += utf8_of(cell.character);
    }
    return text;
}

std::string Canvas::changes_from(const Canvas& before) const
{
    const bool same_size = before.rows_ == rows_ && before.columns_ == columns_;
    std::string text = same_size ? "" : "\x1b[2J"; // erase the page
    const auto row_begin = [&](const Canvas& canvas, int row) {
        return canvas.cells_.begin() + row * columns_;
    };
    for (int row = 0; row < rows_; ++row)
        if (!same_size ||
            !std::equal(row_begin(*this, row), row_begin(*this, row + 1), row_begin(before, row)))
            text += ansi_of(row);
    return text;
}

} // namespace harpkeep::cli
