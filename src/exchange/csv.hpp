// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace harpkeep {

/// A cell of a CSV file and where it begins, for messages; lines and columns count from 1, columns in
/// characters.
struct CsvCell {
    std::string text;
    int line = 1;
    int column = 1;
};

/// A CSV file: rows of equal length, the first of which may be a header.
struct CsvTable {
    std::vector<std::vector<CsvCell>> rows;
};

/// Something wrong at a place in a file.
struct CellProblem {
    int line = 1;
    int column = 1;
    std::string what;
};

/// All problems in one failure, one a line, at most the first twenty: "line 3, column 17: ...".
[[nodiscard]] Error problems_error(const std::string& file_name, const std::vector<CellProblem>& problems);

struct CsvDialect {
    char separator = ',';
    /// Rows may be shorter or longer than the first; for the headings of loggers.
    bool ragged = false;
};

/// Reads CSV row by row.
///
/// Given      text  UTF-8, with or without a byte order mark; lines end with CRLF, LF or CR. It must outlive
/// the
///            reader
/// Reference  RFC 4180, section 2
class CsvReader {
  public:
    explicit CsvReader(std::string_view text, const CsvDialect& dialect = {});

    /// The next row, nothing at the end; or where quotes, rows or characters are wrong. Empty lines are left
    /// out.
    [[nodiscard]] Result<std::optional<std::vector<CsvCell>>> next();

  private:
    std::string_view rest_;
    CsvDialect dialect_;
    int line_ = 1;
    std::size_t width_ = 0;
    bool looked_through_ = false;
};

/// All rows at once; for the rest as CsvReader.
[[nodiscard]] Result<CsvTable> read_csv(std::string_view text, const CsvDialect& dialect = {});

/// The separator that the first line speaks for: semicolon, tab or comma.
[[nodiscard]] char likely_separator(std::string_view text);

/// One row, ended with CRLF; a cell is quoted when it holds a comma, a quote or a line end.
///
/// Reference  RFC 4180, section 2
[[nodiscard]] std::string csv_row(const std::vector<std::string>& cells);

/// Words that a spreadsheet would take for a formula (they begin with = + - @, a tab or a line end) get an
/// apostrophe in front; numbers do not.
[[nodiscard]] std::string guarded_cell(const std::string& text);
/// The inverse: takes the apostrophe of guarded_cell() away again.
[[nodiscard]] std::string unguarded_cell(const std::string& text);

} // namespace harpkeep
