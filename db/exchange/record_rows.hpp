// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/record_import.hpp"
#include "db/exchange/record_tables.hpp"
#include "exchange/csv.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::db {

/// Where in the files something stands.
struct RowSpot {
    std::string file;
    int line = 0;
    int column = 1;
};

/// What is wrong with the files, in the order in which it was found.
class ImportProblems {
  public:
    void add(const RowSpot& spot, const std::string& what);
    void add(const std::string& what) { all_.push_back(what); }
    [[nodiscard]] bool empty() const { return all_.empty(); }
    /// All in one failure, at most the first twenty.
    [[nodiscard]] Error error() const;

  private:
    std::vector<std::string> all_;
};

/// A row of a file, its cells in the order of the table's columns.
struct RecordRow {
    RowSpot spot;                              ///< of its first cell
    std::string first;                         ///< cell of RecordTable::first_column
    std::vector<std::optional<CsvCell>> cells; ///< nothing: the file has no such column
    [[nodiscard]] RowSpot spot_of(std::size_t column) const;
};

/// The rows of a file; what is wrong with its form is added to `problems`.
[[nodiscard]] std::vector<RecordRow> rows_of(const RecordFile& file, const RecordTable& table,
                                             ImportProblems& problems);

} // namespace harpkeep::db
