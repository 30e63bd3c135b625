// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace harpkeep::cli {

enum class Ink { normal, red, blue, green, yellow };

/// How a cell is printed. Colour only ever repeats what the text or the shape says already.
struct Style {
    Ink ink = Ink::normal;
    bool bold = false;
    bool dim = false;

    bool operator==(const Style&) const = default;
};

/// A page of text cells, drawn whole and then printed. All characters used are one cell wide.
class Canvas {
  public:
    Canvas(int rows, int columns);

    [[nodiscard]] int rows() const { return rows_; }
    [[nodiscard]] int columns() const { return columns_; }

    /// Writes UTF-8 text from a cell to the right; what lies outside is cut off.
    void put(int row, int column, std::string_view text, Style style = {});
    void put(int row, int column, char32_t character, Style style = {});
    /// Writes text from `row` down, broken between words at `width` columns, at most `most_rows` rows.
    ///
    /// Returns  the rows used
    int put_wrapped(int row, int column, int width, int most_rows, std::string_view text, Style style = {});

    /// One row without styles, trailing spaces cut off.
    [[nodiscard]] std::string text_of(int row) const;

    /// ANSI text that turns a terminal showing `before` into one showing this page; all of it when the sizes
    /// differ. Rows that are alike are not printed.
    [[nodiscard]] std::string changes_from(const Canvas& before) const;

  private:
    struct Cell {
        char32_t character = U' ';
        Style style;
        bool operator==(const Cell&) const = default;
    };
    [[nodiscard]] std::string ansi_of(int row) const;

    int rows_;
    int columns_;
    std::vector<Cell> cells_;
};

/// The characters of UTF-8 text; anything malformed becomes U+FFFD.
[[nodiscard]] std::u32string characters_of(std::string_view utf8);
[[nodiscard]] std::string utf8_of(char32_t character);

} // namespace harpkeep::cli
