// SPDX-License-Identifier: MIT
#pragma once

#include "db/ledger/catalogue.hpp"
#include "db/sqlite/insert.hpp"

#include <functional>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace harpkeep::db {

/// A cell of an exchanged table as text; nothing: null in JSON, empty in CSV.
using Cell = std::optional<std::string>;

/// How the text of a column is to be read.
enum class CellForm {
    words,
    key,       ///< UUID of the row itself
    reference, ///< UUID of the row that is meant
    whole_number,
    number,
    decimal, ///< a whole number of small units, written in the large unit
    freedom, ///< degrees of freedom: a decimal, or "infinite"
    yes_no,
    place, ///< "3A"
    position,
    step,   ///< "lower", "upper" or "whole"
    doubts, ///< names, separated by spaces
    date,
    time,  ///< ISO 8601 with the local offset
    money, ///< "12.50 EUR"
    hash,  ///< SHA-256, hexadecimal
    bytes, ///< base64
};

/// One column of an exchanged table. Names carry units; small units of the file become usual ones
/// (error_microcents: error_cents), pairs become one (cost_minor and cost_currency: cost), numbers of rows
/// become keys (harp_no: harp).
struct ExchangeColumn {
    std::string name;
    CellForm form = CellForm::words;
    int decimals = 0;
    Points points = Points::nowhere; ///< of a reference
    std::vector<std::string> stored; ///< the columns of the table it stands for, one or two
    bool may_be_empty = false;

    /// Whether JSON writes it as a number.
    [[nodiscard]] bool is_numeric() const;
};

/// The columns of a table as they are exchanged. Left out: a row's own number (its key stands for it) and the
/// folded name by which names are compared, which follows from the name.
[[nodiscard]] std::vector<ExchangeColumn> exchange_columns(const TableInfo& table);

/// What selects the column from a table with the alias x, one expression for each stored column.
[[nodiscard]] std::string select_of(const ExchangeColumn& column);

/// The cell in a row that was selected by select_of(); reading goes on behind it. Throws LedgerFailure.
[[nodiscard]] Cell read_cell(Statement& row, const ExchangeColumn& column);

/// Finds the number of the row that a reference names, or says why there is none.
using FindRow =
    std::function<tl::expected<std::int64_t, std::string>(const ExchangeColumn&, const std::string&)>;

/// The values to be stored for a cell, one for each stored column, or what is wrong with it.
[[nodiscard]] tl::expected<std::vector<StoredValue>, std::string>
stored_values(const ExchangeColumn& column, const Cell& cell, const FindRow& find_row);

} // namespace harpkeep::db
