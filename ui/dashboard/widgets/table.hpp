// SPDX-License-Identifier: MIT
#pragma once

#include "ui/dashboard/actions.hpp"
#include "ui/dashboard/ui.hpp"

#include <optional>
#include <string>
#include <vector>

namespace harpkeep::dashboard {

struct TableColumn {
    std::string title;
    std::string why;     ///< what the figures mean, under the pointer
    float width = 80.0F; ///< units of design; relative when `stretch`
    bool stretch = false;
    bool figures = false; ///< set to the right
    int leaves = 0;       ///< where the room is short, columns go in falling order of this; 0: never
};

/// A cell as text and, where it is a figure or a date, the number it sorts by.
struct TableCell {
    std::string text;
    std::optional<double> sort_by;
    std::optional<State> mark; ///< drawn before the text
    Tint tint = Tint::ink;
};

struct TableRow {
    std::string key;
    std::vector<TableCell> cells;
};

struct TableModel {
    std::vector<TableColumn> columns;
    std::vector<TableRow> rows;
};

/// The columns that find room, in their order; of those that cannot leave, all.
///
/// Given  room  units of design
[[nodiscard]] std::vector<std::size_t> columns_with_room(const TableModel& model, float room);

/// What the user did to a table; lives in the page's state.
struct TableState {
    std::string filter;
    int sort_column = -1; ///< -1: as the rows come
    bool descending = false;
    std::string chosen_key;
    // What is shown, made between frames: the rows, and their order by arrange().
    TableModel model;
    std::vector<int> order;
    bool arranged = false;
    unsigned followed = 0; ///< control of the table that the page was scrolled for

    /// Takes new rows; filter, order and choice stay.
    void show(TableModel rows)
    {
        model = std::move(rows);
        arranged = false;
    }
};

/// Rows that hold every word of `filter` (letters A to Z in either case) in some cell, sorted by a column:
/// figures by value, texts by letters, empty cells last either way; equal rows stay as they come.
[[nodiscard]] std::vector<int> arranged_rows(const TableModel& model, const TableState& state);

/// Makes the order anew when the state asks for it; called between frames.
void arrange(TableState& state);

/// RFC 4180 with the shown rows in the shown order; a cell that a spreadsheet would run as a formula is
/// preceded by an apostrophe.
[[nodiscard]] std::string csv_of(const TableModel& model, const std::vector<int>& order);

struct TableEvents {
    std::optional<std::string> chosen; ///< key of a row that was pressed
};

/// Draws the table; only rows in view cost anything. A press on a head sorts, on a row chooses.
TableEvents show_table(const Ui& ui, std::string_view name, TableState& state, float height,
                       Actions& actions);

} // namespace harpkeep::dashboard
