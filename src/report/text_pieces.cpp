// SPDX-License-Identifier: MIT
#include "report/piece.hpp"

#include <algorithm>

namespace harpkeep::report {

namespace {

constexpr double block_space_pt = 5.0;
constexpr double between_blocks_pt = 4.0;
constexpr double column_gap_pt = 12.0;
constexpr double writing_line_pt = 20.0;
constexpr double frame_padding_pt = 6.0;
constexpr double sign_width_pt = 20.0;

Look look_of(TextLook look)
{
    switch (look) {
    case TextLook::lead:
        return {.size_pt = 11.5, .bold = true};
    case TextLook::small:
        return {.size_pt = 7.2, .grey = 0.25};
    case TextLook::body:
        break;
    }
    return {.size_pt = 9.0};
}

/// A triangle with an exclamation mark.
void draw_warning_sign(cairo_t* canvas, double x_pt, double y_pt)
{
    cairo_set_source_rgb(canvas, 0.0, 0.0, 0.0);
    cairo_set_line_width(canvas, 1.2);
    cairo_set_line_join(canvas, CAIRO_LINE_JOIN_ROUND);
    cairo_move_to(canvas, x_pt + 7.0, y_pt);
    cairo_line_to(canvas, x_pt + 14.0, y_pt + 12.0);
    cairo_line_to(canvas, x_pt, y_pt + 12.0);
    cairo_close_path(canvas);
    cairo_stroke(canvas);
    draw_line(canvas, x_pt + 7.0, y_pt + 4.2, x_pt + 7.0, y_pt + 8.0, 1.3, 0.0);
    cairo_rectangle(canvas, x_pt + 6.3, y_pt + 9.2, 1.4, 1.4);
    cairo_fill(canvas);
}

/// Label and words of facts that stand side by side.
struct FactCell {
    SetText label;
    SetText words;
};

} // namespace

Piece heading_piece(const std::string& heading, const Pen& pen, double width_pt)
{
    const auto text = pen.set(heading, {.size_pt = 10.5, .bold = true}, width_pt);
    return {.height_pt = text.height_pt() + 8.0,
            .space_before_pt = 9.0,
            .keep_with_next = true,
            .rule_above = true,
            .draw = [text](cairo_t* canvas, double x, double y) { text.draw(canvas, x, y + 4.0); }};
}

void add_pieces(Pieces& pieces, const Facts& facts, const Pen& pen, double width_pt)
{
    const auto columns = static_cast<std::size_t>(std::max(1, facts.columns));
    const double column_pt =
        (width_pt - column_gap_pt * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    for (std::size_t first = 0; first < facts.facts.size(); first += columns) {
        std::vector<FactCell> cells;
        double label_pt = 0.0;
        double words_pt = 0.0;
        for (std::size_t i = first; i < std::min(first + columns, facts.facts.size()); ++i) {
            cells.push_back({pen.set(facts.facts[i].label, {.size_pt = 7.0, .grey = 0.35}, column_pt),
                             pen.set(facts.facts[i].words, {.size_pt = 9.0}, column_pt)});
            label_pt = std::max(label_pt, cells.back().label.height_pt());
            words_pt = std::max(words_pt, cells.back().words.height_pt());
        }
        pieces.push_back({.height_pt = label_pt + words_pt + 1.0,
                          .space_before_pt = first == 0 ? 0.0 : block_space_pt,
                          .draw = [cells, label_pt, column_pt](cairo_t* canvas, double x, double y) {
                              for (const FactCell& cell : cells) {
                                  cell.label.draw(canvas, x, y);
                                  cell.words.draw(canvas, x, y + label_pt + 1.0);
                                  x += column_pt + column_gap_pt;
                              }
                          }});
    }
}

void add_pieces(Pieces& pieces, const Sentences& text, const Pen& pen, double width_pt)
{
    const Look look = look_of(text.look);
    const double indent_pt = text.marked ? 9.0 : 0.0;
    const double between_pt = text.look == TextLook::lead ? 4.0 : 2.2;
    bool first_sentence = true;
    for (const std::string& sentence : text.sentences) {
        const auto set = pen.set(sentence, look, width_pt - indent_pt);
        const int lines = set.line_count();
        // A piece for each line, so that a long note goes on over the page; never one line alone.
        for (int line = 0; line < lines; ++line)
            pieces.push_back({.height_pt = set.height_pt() / lines,
                              .space_before_pt = line > 0 ? 0.0 : (first_sentence ? 2.0 : between_pt),
                              .keep_with_next = (line == 0 && lines > 1) || line + 2 == lines ||
                                                text.look == TextLook::lead,
                              .draw = [set, line, indent_pt](cairo_t* canvas, double x, double y) {
                                  const double middle = y + 0.68 * set.baseline_pt();
                                  if (indent_pt > 0.0 && line == 0)
                                      draw_line(canvas, x, middle, x + 4.5, middle, 0.8, 0.25);
                                  set.draw_line_alone(canvas, line, x + indent_pt, y);
                              }});
        first_sentence = false;
    }
}

void add_pieces(Pieces& pieces, const Caution& caution, const Pen& pen, double width_pt)
{
    std::string words;
    for (const std::string& sentence : caution.sentences) words += (words.empty() ? "" : " ") + sentence;
    const auto set = pen.set(words, {.size_pt = 8.0}, width_pt - sign_width_pt - 2.0 * frame_padding_pt);
    const double height_pt = std::max(set.height_pt(), 13.0) + 2.0 * frame_padding_pt;
    pieces.push_back({.height_pt = height_pt,
                      .space_before_pt = block_space_pt + 2.0,
                      .draw = [set, width_pt, height_pt](cairo_t* canvas, double x, double y) {
                          cairo_set_source_rgb(canvas, 0.0, 0.0, 0.0);
                          cairo_set_line_width(canvas, 0.9);
                          cairo_rectangle(canvas, x + 0.45, y + 0.45, width_pt - 0.9, height_pt - 0.9);
                          cairo_stroke(canvas);
                          draw_warning_sign(canvas, x + frame_padding_pt, y + frame_padding_pt);
                          set.draw(canvas, x + frame_padding_pt + sign_width_pt,
                                   y + 0.5 * (height_pt - set.height_pt()));
                      }});
}

void add_pieces(Pieces& pieces, const WritingSpace& space, const Pen& pen, double width_pt)
{
    if (!space.label.empty()) {
        const auto label = pen.set(space.label, {.size_pt = 7.0, .grey = 0.35}, width_pt);
        pieces.push_back(
            {.height_pt = label.height_pt(),
             .space_before_pt = block_space_pt,
             .keep_with_next = true,
             .draw = [label](cairo_t* canvas, double x, double y) { label.draw(canvas, x, y); }});
    }
    for (int line = 0; line < space.lines; ++line)
        pieces.push_back({.height_pt = writing_line_pt,
                          .keep_with_next = line + 1 < std::min(space.lines, space.least_lines),
                          .may_be_left_out = line >= space.least_lines,
                          .draw = [width_pt](cairo_t* canvas, double x, double y) {
                              draw_line(canvas, x, y + writing_line_pt - 2.0, x + width_pt,
                                        y + writing_line_pt - 2.0, 0.4, 0.6);
                          }});
}

void add_pieces(Pieces& pieces, const SignatureLines& signatures, const Pen& pen, double width_pt)
{
    if (signatures.labels.empty()) return;
    const auto count = static_cast<double>(signatures.labels.size());
    const double column_pt = (width_pt - column_gap_pt * (count - 1.0)) / count;
    std::vector<SetText> labels;
    double label_pt = 0.0;
    for (const std::string& label : signatures.labels) {
        labels.push_back(pen.set(label, {.size_pt = 7.0, .grey = 0.35}, column_pt));
        label_pt = std::max(label_pt, labels.back().height_pt());
    }
    constexpr double writing_pt = 26.0;
    pieces.push_back({.height_pt = writing_pt + label_pt + 2.0,
                      .draw = [labels, column_pt](cairo_t* canvas, double x, double y) {
                          for (const SetText& label : labels) {
                              draw_line(canvas, x, y + writing_pt, x + column_pt, y + writing_pt, 0.6, 0.2);
                              label.draw(canvas, x, y + writing_pt + 2.0);
                              x += column_pt + column_gap_pt;
                          }
                      }});
}

Pieces pieces_of(const Document& document, const Pen& pen, double width_pt)
{
    Pieces pieces;
    for (const Section& section : document.sections) {
        if (!section.heading.empty()) pieces.push_back(heading_piece(section.heading, pen, width_pt));
        const bool has_heading = !section.heading.empty();
        for (std::size_t i = 0; i < section.blocks.size(); ++i) {
            const std::size_t first = pieces.size();
            std::visit([&](const auto& one) { add_pieces(pieces, one, pen, width_pt); }, section.blocks[i]);
            const bool follows_block = i > 0 || (!has_heading && first > 0);
            if (follows_block && first < pieces.size()) pieces[first].space_before_pt += between_blocks_pt;
        }
    }
    return pieces;
}

} // namespace harpkeep::report
