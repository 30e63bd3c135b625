// SPDX-License-Identifier: MIT
#include "report/document_csv.hpp"

#include "exchange/csv.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

struct CellText {
    std::string operator()(std::monostate) const { return {}; }
    std::string operator()(bool value) const { return value ? "true" : "false"; }
    std::string operator()(std::int64_t value) const { return fmt::format("{}", value); }
    std::string operator()(double value) const { return fmt::format("{}", value); }
    std::string operator()(const std::string& value) const { return guarded_cell(value); }
};

} // namespace

Result<std::string> csv_of(const Document& document, std::string_view table)
{
    const auto tables = data_tables(document);
    const std::string_view wanted = table.empty() ? std::string_view{document.main_table} : table;
    const auto found =
        std::find_if(tables.begin(), tables.end(), [&](const DataTable& one) { return one.name == wanted; });
    if (found == tables.end()) {
        std::vector<std::string> names;
        for (const DataTable& one : tables) names.push_back(one.name);
        return failure(ErrorCode::not_found, fmt::format("this report has no table \"{}\"; there are {}",
                                                         wanted, fmt::join(names, ", ")));
    }
    std::string text;
    if (!found->rows.empty()) {
        std::vector<std::string> names;
        for (const Field& field : found->rows.front()) names.push_back(field.name);
        text += csv_row(names);
    }
    for (const auto& row : found->rows) {
        std::vector<std::string> cells;
        for (const Field& field : row) cells.push_back(std::visit(CellText{}, field.value));
        text += csv_row(cells);
    }
    return text;
}

} // namespace harpkeep::report
