// SPDX-License-Identifier: MIT
#include "db/exchange/record_rows.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace harpkeep::db {

namespace {

constexpr std::size_t most_problems_told = 20;

/// Which column of the table a heading names: 0 the first column, then the others from 1.
using Columns = std::vector<std::optional<std::size_t>>;

Columns matched(const std::vector<CsvCell>& heading, const RecordFile& file, const RecordTable& table,
                ImportProblems& problems)
{
    const auto names = table.heading();
    const std::size_t shift = table.first_column.empty() ? 1 : 0; // attachments have no first column
    Columns columns;
    for (const CsvCell& cell : heading) {
        const RowSpot spot{file.name, cell.line, cell.column};
        const auto found = std::find(names.begin(), names.end(), cell.text);
        if (found == names.end()) {
            problems.add(spot, fmt::format("the table {} has no column \"{}\"; it has {}", table.name,
                                           cell.text, fmt::join(names, ", ")));
            columns.emplace_back();
            continue;
        }
        const auto index = static_cast<std::size_t>(found - names.begin()) + shift;
        if (std::find(columns.begin(), columns.end(), index) != columns.end())
            problems.add(spot, fmt::format("the column \"{}\" is there twice", cell.text));
        columns.emplace_back(index);
    }
    const bool needs_first = !table.is_content && !table.first_column.empty();
    if (needs_first && std::find(columns.begin(), columns.end(), std::size_t{0}) == columns.end())
        problems.add({file.name, heading.front().line, 1},
                     fmt::format("a column \"{}\" must say to which each row belongs", table.first_column));
    return columns;
}

} // namespace

void ImportProblems::add(const RowSpot& spot, const std::string& what)
{
    if (spot.file.empty())
        all_.push_back(what);
    else
        all_.push_back(fmt::format("{}, line {}, column {}: {}", spot.file, spot.line, spot.column, what));
}

Error ImportProblems::error() const
{
    std::string words = "nothing was taken:";
    for (std::size_t i = 0; i < std::min(all_.size(), most_problems_told); ++i) words += "\n  " + all_[i];
    if (all_.size() > most_problems_told)
        words += fmt::format("\n  and {} more", all_.size() - most_problems_told);
    return {ErrorCode::unusable_input, words};
}

RowSpot RecordRow::spot_of(std::size_t column) const
{
    if (!cells[column]) return spot;
    return {spot.file, cells[column]->line, cells[column]->column};
}

std::vector<RecordRow> rows_of(const RecordFile& file, const RecordTable& table, ImportProblems& problems)
{
    CsvReader reader{file.text, {.separator = likely_separator(file.text)}};
    std::vector<RecordRow> rows;
    std::optional<Columns> columns;
    while (true) {
        auto next = reader.next();
        if (!next) problems.add(file.name + ": " + next.error().message);
        if (!next || !*next) break;
        const std::vector<CsvCell>& cells = **next;
        if (!columns) {
            columns = matched(cells, file, table, problems);
            if (!problems.empty()) return {};
            continue;
        }
        RecordRow row;
        row.spot.file = file.name;
        row.spot.line = cells.front().line;
        row.cells.resize(table.columns.size());
        for (std::size_t i = 0; i < cells.size(); ++i) {
            CsvCell cell{unguarded_cell(cells[i].text), cells[i].line, cells[i].column};
            if ((*columns)[i] == std::size_t{0})
                row.first = cell.text;
            else
                row.cells[*(*columns)[i] - 1] = std::move(cell);
        }
        rows.push_back(std::move(row));
    }
    if (!columns && problems.empty())
        problems.add(file.name + ": is empty; the first line names the columns");
    return rows;
}

} // namespace harpkeep::db
