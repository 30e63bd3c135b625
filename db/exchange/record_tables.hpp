// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/ledger_rows.hpp"

#include <iosfwd>
#include <map>

namespace harpkeep::db {

/// A table of what holds now, as people fill it in a spreadsheet: one row for each thing (harp, string,
/// visit), or several rows that belong to one (the work of a visit).
struct RecordTable {
    std::string name;        ///< of its CSV file: "string" for string.csv
    std::string kind;        ///< of the thing that a row is, or belongs to; empty for attachments
    bool is_content = false; ///< one row is one thing; else the rows belong to things
    TableInfo info;
    std::string first_column;            ///< "key", or the kind of thing that the rows belong to
    std::vector<ExchangeColumn> columns; ///< the others

    [[nodiscard]] std::vector<std::string> heading() const;
};

/// All record tables, each after those it refers to. Throws LedgerFailure.
[[nodiscard]] std::vector<RecordTable> record_tables(const Database& database);
[[nodiscard]] Result<std::vector<RecordTable>> record_tables(const Ledger& ledger);

/// How a harp or a room is written where another table refers to it: by its name, when only it has that name.
class ReferenceNames {
  public:
    explicit ReferenceNames(const Database& database);
    /// The name, or the key when the name would not do.
    [[nodiscard]] const std::string& of(const std::string& key) const;

  private:
    std::map<std::string, std::string> names_;
};

/// Writes what holds now of one table as CSV: RFC 4180, a heading with units, formulas guarded.
[[nodiscard]] Result<void> write_records(const Ledger& ledger, const RecordTable& table,
                                         std::ostream& stream);

} // namespace harpkeep::db
