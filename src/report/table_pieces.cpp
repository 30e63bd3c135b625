// SPDX-License-Identifier: MIT
#include "report/piece.hpp"

#include "base/expects.hpp"

#include <algorithm>
#include <numeric>

namespace harpkeep::report {

namespace {

constexpr double gap_pt = 9.0;
constexpr double usual_padding_pt = 1.7;
constexpr double tight_padding_pt = 0.9;
constexpr double widest_unbroken_share = 0.34; ///< of the table; a cell that needs more breaks lines

Look cell_look(const Table& table, const Column& column, bool strong)
{
    return {.size_pt = table.text_pt, .bold = strong, .align = column.align};
}

Look heading_look(const Column& column)
{
    return {.size_pt = 6.8, .grey = 0.3, .align = column.align};
}

/// What each column would take if nothing were broken.
std::vector<double> natural_widths(const Table& table, const Pen& pen)
{
    std::vector<double> widths;
    for (std::size_t c = 0; c < table.columns.size(); ++c) {
        double widest = pen.set(table.columns[c].heading, heading_look(table.columns[c])).width_pt();
        for (const Row& row : table.rows)
            if (!row.cells.empty())
                widest = std::max(
                    widest, pen.set(row.cells[c], cell_look(table, table.columns[c], row.strong)).width_pt());
        widths.push_back(widest + 0.5); // rounding must not break a line that just fits
    }
    return widths;
}

/// Shares the room out: unbroken columns take what they need, the others the rest in proportion.
std::vector<double> column_widths(const Table& table, const Pen& pen, double width_pt)
{
    auto widths = natural_widths(table, pen);
    const double room = width_pt - gap_pt * static_cast<double>(widths.size() - 1);
    double fixed = 0.0;
    double wanted = 0.0;
    for (std::size_t c = 0; c < widths.size(); ++c) {
        if (!table.columns[c].wraps) widths[c] = std::min(widths[c], widest_unbroken_share * room);
        (table.columns[c].wraps ? wanted : fixed) += widths[c];
    }
    if (wanted > 0.0) {
        const double rest = std::max(room - fixed, 0.25 * room);
        for (std::size_t c = 0; c < widths.size(); ++c)
            if (table.columns[c].wraps) widths[c] *= rest / wanted;
    }
    const double all = std::accumulate(widths.begin(), widths.end(), 0.0);
    const double factor = room / all;
    // Too wide: everything gives way. Narrower: gap_of() spreads the columns, so that lines end at the
    // margin.
    if (factor < 1.0)
        for (double& width : widths) width *= factor;
    return widths;
}

/// The room between columns: wider when a table has none that takes the rest.
double gap_of(const std::vector<double>& widths, double width_pt)
{
    if (widths.size() < 2) return gap_pt;
    const double all = std::accumulate(widths.begin(), widths.end(), 0.0);
    return std::max(gap_pt, (width_pt - all) / static_cast<double>(widths.size() - 1));
}

struct Placed {
    SetText text;
    double x_pt = 0.0;
    double down_pt = 0.0;
};

Piece head_of(const Table& table, const std::vector<double>& widths, double gap, const Pen& pen,
              double width_pt)
{
    std::vector<Placed> cells;
    double height = 0.0;
    double x = 0.0;
    for (std::size_t c = 0; c < widths.size(); ++c) {
        cells.push_back({pen.set(table.columns[c].heading, heading_look(table.columns[c]), widths[c]), x});
        height = std::max(height, cells.back().text.height_pt());
        x += widths[c] + gap;
    }
    for (Placed& cell : cells) cell.down_pt = height - cell.text.height_pt(); // headings stand on the line
    return {.height_pt = height + 3.0,
            .space_before_pt = 3.0,
            .keep_with_next = true,
            .draw = [cells, height, width_pt](cairo_t* canvas, double left, double y) {
                for (const Placed& cell : cells) cell.text.draw(canvas, left + cell.x_pt, y + cell.down_pt);
                draw_line(canvas, left, y + height + 1.5, left + width_pt, y + height + 1.5, 0.6, 0.0);
            }};
}

Piece row_piece(const Table& table, const Row& row, const std::vector<double>& widths, double gap,
                const Pen& pen, double width_pt)
{
    HARPKEEP_EXPECTS(row.cells.size() == table.columns.size());
    std::vector<Placed> cells;
    const double padding_pt = table.tight ? tight_padding_pt : usual_padding_pt;
    double height = 0.0;
    double x = 0.0;
    for (std::size_t c = 0; c < widths.size(); ++c) {
        cells.push_back(
            {pen.set(row.cells[c], cell_look(table, table.columns[c], row.strong), widths[c]), x});
        height = std::max(height, cells.back().text.height_pt());
        x += widths[c] + gap;
    }
    return {.height_pt = height + 2.0 * padding_pt,
            .draw = [cells, height, padding_pt, width_pt](cairo_t* canvas, double left, double y) {
                for (const Placed& cell : cells)
                    cell.text.draw(canvas, left + cell.x_pt, y + padding_pt + cell.down_pt);
                const double line = y + height + 2.0 * padding_pt;
                draw_line(canvas, left, line, left + width_pt, line, 0.3, 0.75);
            }};
}

} // namespace

void add_pieces(Pieces& pieces, const Table& table, const Pen& pen, double width_pt)
{
    const bool empty =
        std::all_of(table.rows.begin(), table.rows.end(), [](const Row& row) { return row.cells.empty(); });
    if (empty) {
        if (!table.when_empty.empty()) add_pieces(pieces, Sentences{{table.when_empty}}, pen, width_pt);
        return;
    }
    const auto widths = column_widths(table, pen, width_pt);
    const double gap = gap_of(widths, width_pt);
    const auto head = std::make_shared<Piece>(head_of(table, widths, gap, pen, width_pt));
    const std::size_t first = pieces.size() + 1;
    pieces.push_back(*head);
    for (const Row& row : table.rows) {
        if (row.cells.empty()) continue;
        auto piece = row_piece(table, row, widths, gap, pen, width_pt);
        piece.repeated_head = head;
        pieces.push_back(std::move(piece));
    }
    // Neither the first row nor the last stands alone on a page.
    if (pieces.size() - first >= 3) {
        pieces[first].keep_with_next = true;
        pieces[pieces.size() - 2].keep_with_next = true;
    }
}

} // namespace harpkeep::report
