// SPDX-License-Identifier: MIT
#include "report/document.hpp"

namespace harpkeep::report {

namespace {

void add_rows(const Facts& facts, const Section& section, std::vector<DataTable>& tables)
{
    std::vector<Field> row;
    for (const Fact& fact : facts.facts) row.insert(row.end(), fact.fields.begin(), fact.fields.end());
    if (!row.empty()) tables.push_back({section.name, {std::move(row)}});
}

void add_rows(const Table& table, const Section&, std::vector<DataTable>& tables)
{
    DataTable data{table.name, {}};
    for (const Row& row : table.rows) data.rows.push_back(row.fields);
    tables.push_back(std::move(data));
}

void add_rows(const NeckChart& chart, const Section&, std::vector<DataTable>& tables)
{
    DataTable data{chart.name, {}};
    for (const ChartPanel& panel : chart.panels)
        for (const ChartPoint& point : panel.points) data.rows.push_back(point.fields);
    tables.push_back(std::move(data));
}

template <class WithoutRows>
void add_rows(const WithoutRows&, const Section&, std::vector<DataTable>&)
{
}

} // namespace

std::string_view mark_words(Mark mark)
{
    switch (mark) {
    case Mark::within:
        return "within";
    case Mark::watch:
        return "watch";
    case Mark::out:
        return "out";
    case Mark::not_proven:
        break;
    }
    return "not proven";
}

std::vector<DataTable> data_tables(const Document& document)
{
    std::vector<DataTable> tables;
    for (const Section& section : document.sections)
        for (const Block& block : section.blocks)
            std::visit([&](const auto& one) { add_rows(one, section, tables); }, block);
    return tables;
}

} // namespace harpkeep::report
