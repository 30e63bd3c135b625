// SPDX-License-Identifier: MIT
#include "ui/cli/output.hpp"

#include "base/expects.hpp"
#include "records/display_width.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace harpkeep::cli {

namespace {

std::string padded(const std::string& cell, std::size_t width, Table::Align align)
{
    const std::string spaces(width - std::min(width, display_width(cell)), ' ');
    return align == Table::Align::left ? cell + spaces : spaces + cell;
}

std::string without_trailing_spaces(std::string line)
{
    line.erase(line.find_last_not_of(' ') + 1);
    return line;
}

} // namespace

void print_json(const Json& document)
{
    fmt::print("{}\n", document.dump(2, ' ', false, Json::error_handler_t::replace));
}

void print_json_line(const Json& document)
{
    fmt::print("{}\n", document.dump(-1, ' ', false, Json::error_handler_t::replace));
}

Table::Table(std::vector<Column> columns) : columns_(std::move(columns)) {}

void Table::add_row(std::vector<std::string> cells)
{
    HARPKEEP_EXPECTS(cells.size() == columns_.size());
    rows_.push_back(std::move(cells));
}

std::string Table::text() const
{
    std::vector<std::size_t> widths;
    for (const Column& column : columns_) widths.push_back(display_width(column.heading));
    for (const auto& row : rows_)
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], display_width(row[i]));

    const auto line = [&](const auto& cell_of) {
        std::string cells;
        for (std::size_t i = 0; i < columns_.size(); ++i)
            cells += (i == 0 ? "" : "  ") + padded(cell_of(i), widths[i], columns_[i].align);
        return without_trailing_spaces(cells) + "\n";
    };
    std::string all = line([&](std::size_t i) { return columns_[i].heading; });
    for (const auto& row : rows_) all += line([&](std::size_t i) { return row[i]; });
    return all;
}

void Table::print() const
{
    fmt::print("{}", text());
}

void print_line(std::string_view text)
{
    fmt::print("{}\n", text);
}

std::string counted(std::size_t count, std::string_view noun)
{
    return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

} // namespace harpkeep::cli
