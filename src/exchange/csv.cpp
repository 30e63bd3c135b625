// SPDX-License-Identifier: MIT
#include "exchange/csv.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <optional>
#include <utf8proc.h>

namespace harpkeep {

namespace {

constexpr std::size_t most_problems_told = 20;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Reads the text from the left, counting lines and columns.
class Scanner {
  public:
    explicit Scanner(std::string_view text, int line = 1) : rest_(text), line_(line) {}

    [[nodiscard]] std::string_view rest() const { return rest_; }

    [[nodiscard]] bool done() const { return rest_.empty(); }
    [[nodiscard]] char peek() const { return rest_.front(); }
    [[nodiscard]] int line() const { return line_; }
    [[nodiscard]] int column() const { return column_; }
    [[nodiscard]] bool at_line_end() const { return peek() == '\n' || peek() == '\r'; }

    /// Takes a line end, of two bytes too.
    void take_line_end()
    {
        if (take() == '\r' && !rest_.empty() && rest_.front() == '\n') take();
    }

    /// Takes one byte.
    char take()
    {
        const char next = rest_.front();
        rest_.remove_prefix(1);
        if (next == '\n' || next == '\r') {
            const bool first_of_two = next == '\r' && !rest_.empty() && rest_.front() == '\n';
            if (!first_of_two) ++line_;
            column_ = 1;
            return next;
        }
        const bool continues_character = (static_cast<unsigned char>(next) & 0xC0U) == 0x80U;
        if (!continues_character) ++column_;
        return next;
    }

  private:
    std::string_view rest_;
    int line_;
    int column_ = 1;
};

using Problem = std::optional<CellProblem>;

Problem read_quoted(Scanner& scanner, std::string& text, char separator)
{
    const int line = scanner.line(), column = scanner.column();
    scanner.take();
    while (!scanner.done()) {
        const char next = scanner.take();
        if (next != '"') {
            text += next;
            continue;
        }
        if (!scanner.done() && scanner.peek() == '"') {
            text += scanner.take();
            continue;
        }
        if (scanner.done() || scanner.peek() == separator || scanner.at_line_end()) return std::nullopt;
        return CellProblem{scanner.line(), scanner.column(),
                           "words after a closing quote; double the quotes inside a cell"};
    }
    return CellProblem{line, column, "the quote that opens here is never closed"};
}

Problem read_cell(Scanner& scanner, std::string& text, char separator)
{
    if (!scanner.done() && scanner.peek() == '"') return read_quoted(scanner, text, separator);
    while (!scanner.done() && scanner.peek() != separator && !scanner.at_line_end()) {
        if (scanner.peek() == '"')
            return CellProblem{scanner.line(), scanner.column(), "a quote inside a cell that is not quoted"};
        text += scanner.take();
    }
    return std::nullopt;
}

Problem read_row(Scanner& scanner, std::vector<CsvCell>& row, char separator)
{
    while (true) {
        CsvCell cell{"", scanner.line(), scanner.column()};
        if (auto problem = read_cell(scanner, cell.text, separator)) return problem;
        row.push_back(std::move(cell));
        if (scanner.done()) return std::nullopt;
        if (scanner.at_line_end()) {
            scanner.take_line_end();
            return std::nullopt;
        }
        scanner.take();
    }
}

/// Where the text stops being UTF-8.
Problem encoding_problem(std::string_view text)
{
    Scanner scanner{text};
    while (!text.empty()) {
        utf8proc_int32_t codepoint = 0;
        const auto length = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                             static_cast<utf8proc_ssize_t>(text.size()), &codepoint);
        if (length <= 0)
            return CellProblem{scanner.line(), scanner.column(),
                               "not UTF-8 from here; save the file as UTF-8"};
        if (codepoint == 0)
            return CellProblem{scanner.line(), scanner.column(), "a zero byte; this is no text file"};
        for (utf8proc_ssize_t i = 0; i < length; ++i) scanner.take();
        text.remove_prefix(static_cast<std::size_t>(length));
    }
    return std::nullopt;
}

tl::unexpected<Error> failed(const CellProblem& problem)
{
    return failure(problems_error("the file", {problem}));
}

bool is_number(std::string_view text)
{
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size();
}

/// Whether the text begins, after any apostrophes, with what makes a formula.
bool looks_like_formula(std::string_view text)
{
    text.remove_prefix(std::min(text.find_first_not_of('\''), text.size()));
    return !text.empty() && std::string_view{"=+-@\t\r\n"}.find(text.front()) != std::string_view::npos;
}

} // namespace

Error problems_error(const std::string& file_name, const std::vector<CellProblem>& problems)
{
    std::string message = fmt::format("{}: nothing was taken from it:", file_name);
    for (std::size_t i = 0; i < std::min(problems.size(), most_problems_told); ++i)
        message +=
            fmt::format("\n  line {}, column {}: {}", problems[i].line, problems[i].column, problems[i].what);
    if (problems.size() > most_problems_told)
        message += fmt::format("\n  and {} more", problems.size() - most_problems_told);
    return {ErrorCode::unusable_input, message};
}

CsvReader::CsvReader(std::string_view text, const CsvDialect& dialect) : rest_(text), dialect_(dialect)
{
    if (rest_.starts_with(byte_order_mark)) rest_.remove_prefix(byte_order_mark.size());
}

Result<std::optional<std::vector<CsvCell>>> CsvReader::next()
{
    if (!looked_through_)
        if (const auto problem = encoding_problem(rest_)) return failed(*problem);
    looked_through_ = true;
    while (!rest_.empty()) {
        Scanner scanner{rest_, line_};
        std::vector<CsvCell> row;
        if (const auto problem = read_row(scanner, row, dialect_.separator)) return failed(*problem);
        rest_ = scanner.rest();
        line_ = scanner.line();
        if (row.size() == 1 && row[0].text.empty()) continue; // an empty line
        if (width_ == 0) width_ = row.size();
        if (!dialect_.ragged && row.size() != width_)
            return failed({row.front().line, 1,
                           fmt::format("{} cells where the first line has {}", row.size(), width_)});
        return row;
    }
    return std::nullopt;
}

Result<CsvTable> read_csv(std::string_view text, const CsvDialect& dialect)
{
    CsvReader reader{text, dialect};
    CsvTable table;
    while (true) {
        auto row = reader.next();
        if (!row) return failure(row.error());
        if (!*row) return table;
        table.rows.push_back(std::move(**row));
    }
}

char likely_separator(std::string_view text)
{
    const auto line = text.substr(0, text.find_first_of("\r\n"));
    const auto count = [&](char separator) { return std::count(line.begin(), line.end(), separator); };
    if (count(';') > 0 && count(';') >= count(',')) return ';';
    return count('\t') > count(',') ? '\t' : ',';
}

std::string csv_row(const std::vector<std::string>& cells)
{
    std::string row;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) row += ',';
        if (cells[i].find_first_of(",\"\r\n") == std::string::npos) {
            row += cells[i];
            continue;
        }
        row += '"';
        for (const char character : cells[i]) {
            if (character == '"') row += '"';
            row += character;
        }
        row += '"';
    }
    return row + "\r\n";
}

std::string guarded_cell(const std::string& text)
{
    return looks_like_formula(text) && !is_number(text) ? '\'' + text : text;
}

std::string unguarded_cell(const std::string& text)
{
    return text.starts_with('\'') && looks_like_formula(text) ? text.substr(1) : text;
}

} // namespace harpkeep
