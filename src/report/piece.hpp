// SPDX-License-Identifier: MIT
#pragma once

#include "report/document.hpp"
#include "report/pen.hpp"

#include <functional>
#include <memory>
#include <vector>

namespace harpkeep::report {

/// Something that stays together on a page. A report is laid out as a column of pieces and then cut into
/// pages.
struct Piece {
    double height_pt = 0.0;
    double space_before_pt = 0.0; ///< left out at the top of a page
    bool keep_with_next = false;  ///< a heading does not end a page
    bool may_be_left_out = false; ///< when that saves a page
    bool rule_above = false;      ///< a line over it, but not at the top of a page
    std::function<void(cairo_t* canvas, double x_pt, double y_pt)> draw;
    std::shared_ptr<const Piece> repeated_head; ///< stands above this piece when it begins a page
};

using Pieces = std::vector<Piece>;

void add_pieces(Pieces& pieces, const Facts& facts, const Pen& pen, double width_pt);
void add_pieces(Pieces& pieces, const Sentences& text, const Pen& pen, double width_pt);
void add_pieces(Pieces& pieces, const Caution& caution, const Pen& pen, double width_pt);
void add_pieces(Pieces& pieces, const Table& table, const Pen& pen, double width_pt);
void add_pieces(Pieces& pieces, const NeckChart& chart, const Pen& pen, double width_pt);
void add_pieces(Pieces& pieces, const WritingSpace& space, const Pen& pen, double width_pt);
void add_pieces(Pieces& pieces, const SignatureLines& signatures, const Pen& pen, double width_pt);

[[nodiscard]] Piece heading_piece(const std::string& heading, const Pen& pen, double width_pt);

/// Pieces of the whole document but for the head of the first page.
[[nodiscard]] Pieces pieces_of(const Document& document, const Pen& pen, double width_pt);

} // namespace harpkeep::report
