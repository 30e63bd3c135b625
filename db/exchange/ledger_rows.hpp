// SPDX-License-Identifier: MIT
#pragma once

#include "db/exchange/exchange_column.hpp"
#include "db/ledger/ledger.hpp"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace harpkeep::db {

// A whole ledger as tables of text, with all that was ever stated: what its JSON and CSV forms have in
// common. Everything throws LedgerFailure.

struct ExchangeTable {
    TableInfo info;
    std::vector<ExchangeColumn> columns;
};

/// All tables of a ledger, each after those it refers to.
[[nodiscard]] std::vector<ExchangeTable> exchange_tables(const Database& database);

/// Takes the rows of a ledger one after the other.
class RowSink {
  public:
    virtual ~RowSink() = default;
    virtual void begin_table(const ExchangeTable& table) = 0;
    virtual void row(const ExchangeTable& table, const std::vector<Cell>& cells) = 0;
    virtual void end_table() = 0;
};

/// Hands every row to the sink, on one snapshot, in the order in which they were written.
void send_rows(const Database& database, RowSink& sink);

/// What is wrong with a row, and in which of its columns.
struct RowProblem {
    std::size_t column = 0;
    std::string what;
};

/// Fills an empty ledger with rows that were exchanged.
class RowLoader {
  public:
    explicit RowLoader(const Database& empty_ledger);

    [[nodiscard]] const std::vector<ExchangeTable>& tables() const { return tables_; }

    /// Begins with the rows of this table.
    void begin_table(const ExchangeTable& table);
    /// One row, a cell for each column of the table; what is wrong with it, if anything. A row that refers to
    /// one that was refused is left out without a word.
    [[nodiscard]] std::vector<RowProblem> load(const std::vector<Cell>& cells);

  private:
    void note_refused(const std::vector<Cell>& cells);
    [[nodiscard]] tl::expected<std::int64_t, std::string> find_row(const ExchangeColumn& column,
                                                                   const std::string& key);
    void bind_derived(Statement& insert, const std::vector<Cell>& cells) const;
    void run(const std::vector<Cell>& cells, std::vector<std::vector<StoredValue>>& values,
             std::vector<RowProblem>& problems);

    const Database& database_;
    std::vector<ExchangeTable> tables_;
    std::map<Points, Statement> find_;
    const ExchangeTable* table_ = nullptr;
    std::optional<Statement> insert_;
    std::set<std::string> refused_keys_;     ///< of rows, so that rows that refer to them are left out
    std::set<std::string> refused_contents_; ///< of facts whose content was refused
    bool refers_to_refused_ = false;
};

/// SQLite's words about a broken rule without the file they come from.
[[nodiscard]] std::string rule_words(const std::string& message);

/// A rule's words with columns named as they are exchanged: harp for harp_no, decay_s for decay_ms.
[[nodiscard]] std::string as_exchanged(const std::vector<ExchangeColumn>& columns, std::string words);

/// The column that SQLite's words about a broken rule speak of, else the first.
[[nodiscard]] std::size_t column_spoken_of(const std::vector<ExchangeColumn>& columns,
                                           const std::string& words);

} // namespace harpkeep::db
