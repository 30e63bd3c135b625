// SPDX-License-Identifier: MIT
#include "db/exchange/ledger_csv.hpp"

#include "db/ledger/file_bytes.hpp"
#include "db/ledger/unfinished_file.hpp"
#include "db/sqlite/ledger_failure.hpp"
#include "db/sqlite/migrate.hpp"
#include "db/sqlite/transaction.hpp"
#include "exchange/csv.hpp"
#include "exchange/exact_decimal.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace harpkeep::db {

namespace {

namespace fs = std::filesystem;

constexpr const char* version_file = "schema_version.csv";
constexpr std::int64_t largest_file_bytes = 8'000'000'000;
constexpr std::size_t most_problems = 20;

class CsvSink : public RowSink {
  public:
    explicit CsvSink(fs::path folder) : folder_(std::move(folder)) {}

    void begin_table(const ExchangeTable& table) override
    {
        path_ = folder_ / (table.info.name + ".csv");
        file_ = std::ofstream{path_, std::ios::binary};
        std::vector<std::string> names;
        for (const ExchangeColumn& column : table.columns) names.push_back(column.name);
        file_ << csv_row(names);
    }
    void row(const ExchangeTable&, const std::vector<Cell>& cells) override
    {
        std::vector<std::string> texts;
        for (const Cell& cell : cells) texts.push_back(guarded_cell(cell.value_or("")));
        file_ << csv_row(texts);
    }
    void end_table() override
    {
        file_.close();
        if (!file_)
            fail(ErrorCode::unavailable,
                 path_.string() + " cannot be written; see to the folder and whether the disk is full");
    }

  private:
    fs::path folder_, path_;
    std::ofstream file_;
};

/// One file being read into its table.
class TableFile {
  public:
    TableFile(const fs::path& path, RowLoader& loader, const ExchangeTable& table,
              std::vector<std::string>& problems)
        : name_(path.filename().string()),
          loader_(loader),
          table_(table),
          problems_(problems),
          bytes_(value_or_fail(file_bytes(path.string(), largest_file_bytes))),
          rows_({reinterpret_cast<const char*>(bytes_.data()), bytes_.size()})
    {
    }

    void read()
    {
        auto heading = next();
        if (!heading || !match(*heading)) return;
        loader_.begin_table(table_);
        while (const auto row = next()) {
            std::vector<Cell> cells(table_.columns.size());
            for (std::size_t i = 0; i < row->size(); ++i)
                if (!(*row)[i].text.empty()) cells[column_[i]] = unguarded_cell((*row)[i].text);
            for (const RowProblem& found : loader_.load(cells))
                problem((*row)[cell_of(found.column)], found.what);
            if (problems_.size() >= most_problems) return;
        }
    }

  private:
    std::optional<std::vector<CsvCell>> next()
    {
        auto row = rows_.next();
        if (row) return std::move(*row);
        problems_.push_back(name_ + ": " + row.error().message);
        return std::nullopt;
    }
    void problem(const CsvCell& cell, const std::string& what)
    {
        problems_.push_back(fmt::format("{}, line {}, column {}: {}", name_, cell.line, cell.column, what));
    }
    bool match(const std::vector<CsvCell>& heading)
    {
        for (const CsvCell& cell : heading) {
            const auto found =
                std::find_if(table_.columns.begin(), table_.columns.end(),
                             [&](const ExchangeColumn& column) { return column.name == cell.text; });
            if (found == table_.columns.end())
                problem(cell, fmt::format("the table has no column \"{}\"", cell.text));
            column_.push_back(static_cast<std::size_t>(found - table_.columns.begin()));
        }
        return problems_.empty();
    }
    [[nodiscard]] std::size_t cell_of(std::size_t column) const
    {
        const auto found = std::find(column_.begin(), column_.end(), column);
        return found == column_.end() ? 0 : static_cast<std::size_t>(found - column_.begin());
    }

    std::string name_;
    RowLoader& loader_;
    const ExchangeTable& table_;
    std::vector<std::string>& problems_;
    std::vector<std::uint8_t> bytes_;
    CsvReader rows_;
    std::vector<std::size_t> column_; ///< of the table, for each cell of a row
};

std::int64_t version_in(const fs::path& folder)
{
    const auto bytes = value_or_fail(file_bytes((folder / version_file).string(), 1000));
    const auto table = value_or_fail(read_csv({reinterpret_cast<const char*>(bytes.data()), bytes.size()}));
    const auto version = table.rows.size() == 2 && table.rows[1].size() == 1
                             ? whole_number(table.rows[1][0].text)
                             : std::nullopt;
    if (!version || *version < 1)
        fail(ErrorCode::unusable_input, std::string{version_file} + " names no version of the schema");
    if (*version > newest_schema_version())
        fail(ErrorCode::refused,
             fmt::format("it was written by a later version of harpkeep (schema {}, this one knows {})",
                         *version, newest_schema_version()));
    return *version;
}

} // namespace

void write_ledger_csv(const Ledger& ledger, const std::string& folder)
{
    std::ofstream version{fs::path{folder} / version_file, std::ios::binary};
    version << csv_row({"schema_version"}) << csv_row({std::to_string(schema_version(ledger.database()))});
    version.close();
    CsvSink sink{folder};
    send_rows(ledger.database(), sink);
}

std::vector<std::string> read_ledger_csv(const std::string& folder, const Database& target)
{
    migrate_to(target, version_in(folder));
    Transaction transaction{target, Transaction::Kind::write};
    RowLoader loader{target};
    std::vector<std::string> problems;
    for (const ExchangeTable& table : loader.tables()) {
        const fs::path path = fs::path{folder} / (table.info.name + ".csv");
        if (table.info.name == "thing_kind" || !is_there(path.string()))
            continue; // the schema itself knows the kinds
        TableFile{path, loader, table, problems}.read();
        if (problems.size() >= most_problems) break;
    }
    if (problems.empty()) transaction.commit();
    return problems;
}

} // namespace harpkeep::db
