// SPDX-License-Identifier: MIT
#include "report/pdf.hpp"

#include "report/piece.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <algorithm>

namespace harpkeep::report {

namespace {

constexpr double side_margin_pt = 16.0 * points_in_mm;
constexpr double top_margin_pt = 14.0 * points_in_mm;
constexpr double bottom_margin_pt = 15.0 * points_in_mm;

struct Frame {
    double page_width_pt = 0.0;
    double page_height_pt = 0.0;

    [[nodiscard]] double width_pt() const { return page_width_pt - 2.0 * side_margin_pt; }
    [[nodiscard]] double bottom_pt() const { return page_height_pt - bottom_margin_pt; }
};

struct PlacedPiece {
    Piece piece;
    double y_pt = 0.0;
    bool ruled = false;
};
using Page = std::vector<PlacedPiece>;

/// Title and subject over a rule; the subject takes a line of its own when both do not fit.
Piece document_head(const Document& document, const Pen& pen, double width_pt)
{
    const Look large{.size_pt = 16.0, .bold = true};
    const auto title = pen.set(document.title, large);
    const auto subject = pen.set(document.subject, large);
    const bool one_line = title.width_pt() + subject.width_pt() + 18.0 <= width_pt;
    const auto title_text = one_line ? title : pen.set(document.title, large, width_pt);
    const auto subject_text =
        one_line ? subject : pen.set(document.subject, {.size_pt = 13.0, .bold = true}, width_pt);
    const auto day = pen.set(iso_date(document.day), {.size_pt = 8.5, .grey = 0.2});
    const auto subtitle =
        pen.set(document.subtitle, {.size_pt = 8.5, .grey = 0.2}, width_pt - day.width_pt() - 18.0);
    const double top_pt =
        one_line ? title_text.height_pt() : title_text.height_pt() + subject_text.height_pt();
    const double rule_pt = top_pt + 3.0 + std::max(subtitle.height_pt(), day.height_pt()) + 4.0;
    return {.height_pt = rule_pt + 9.0, .draw = [=](cairo_t* canvas, double x, double y) {
                title_text.draw(canvas, x, y);
                if (one_line)
                    subject_text.draw(canvas, x + width_pt - subject_text.width_pt(), y);
                else
                    subject_text.draw(canvas, x, y + title_text.height_pt());
                subtitle.draw(canvas, x, y + top_pt + 3.0);
                day.draw(canvas, x + width_pt - day.width_pt(), y + top_pt + 3.0);
                draw_line(canvas, x, y + rule_pt, x + width_pt, y + rule_pt, 1.4, 0.0);
            }};
}

/// The small head of the pages after the first.
Piece running_head(const Document& document, const Pen& pen, double width_pt)
{
    const auto words =
        pen.set(document.subject.empty() ? document.title : document.title + " · " + document.subject,
                {.size_pt = 8.5, .grey = 0.2}, width_pt);
    return {.height_pt = words.height_pt() + 12.0,
            .draw = [words, width_pt](cairo_t* canvas, double x, double y) {
                words.draw(canvas, x, y);
                const double line = y + words.height_pt() + 2.5;
                draw_line(canvas, x, line, x + width_pt, line, 0.7, 0.0);
            }};
}

/// Height of the pieces from `first` on that must stand on one page.
double height_together(const Pieces& pieces, std::size_t first, bool at_top)
{
    double height = 0.0;
    for (std::size_t i = first; i < pieces.size(); ++i) {
        height += pieces[i].height_pt + (at_top && i == first ? 0.0 : pieces[i].space_before_pt);
        if (!pieces[i].keep_with_next) break;
    }
    return height;
}

/// Cuts the column of pieces into pages.
std::vector<Page> cut_into_pages(const Pieces& pieces, const Document& document, const Pen& pen,
                                 const Frame& frame)
{
    const auto running = running_head(document, pen, frame.width_pt());
    std::vector<Page> pages(1);
    auto head = document_head(document, pen, frame.width_pt());
    double y = top_margin_pt + head.height_pt;
    pages.back().push_back({std::move(head), top_margin_pt});
    bool at_top = true;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
        const bool follows_kept = i > 0 && pieces[i - 1].keep_with_next;
        const bool fits = y + height_together(pieces, i, at_top) <= frame.bottom_pt();
        if (!fits && !at_top && !follows_kept) {
            pages.emplace_back();
            pages.back().push_back({running, top_margin_pt});
            y = top_margin_pt + running.height_pt;
            at_top = true;
            if (const auto& repeated = pieces[i].repeated_head) {
                pages.back().push_back({*repeated, y});
                y += repeated->height_pt;
                at_top = false;
            }
        }
        if (!at_top) y += pieces[i].space_before_pt;
        pages.back().push_back({pieces[i], y, pieces[i].rule_above && !at_top});
        y += pieces[i].height_pt;
        at_top = false;
    }
    return pages;
}

/// The column without the last so many pieces that may be left out.
Pieces without_last(const Pieces& pieces, std::size_t leave_out)
{
    Pieces kept;
    for (auto piece = pieces.rbegin(); piece != pieces.rend(); ++piece) {
        if (piece->may_be_left_out && leave_out > 0)
            --leave_out;
        else
            kept.push_back(*piece);
    }
    std::reverse(kept.begin(), kept.end());
    return kept;
}

/// As few pages as the contents need, with as many writing lines as fit on them.
std::vector<Page> pages_of(const Document& document, const Pen& pen, const Frame& frame)
{
    const auto pieces = pieces_of(document, pen, frame.width_pt());
    const auto optional_pieces = static_cast<std::size_t>(std::count_if(
        pieces.begin(), pieces.end(), [](const Piece& piece) { return piece.may_be_left_out; }));
    auto pages = cut_into_pages(pieces, document, pen, frame);
    const auto fewest = cut_into_pages(without_last(pieces, optional_pieces), document, pen, frame).size();
    for (std::size_t leave_out = 1; pages.size() > fewest && leave_out <= optional_pieces; ++leave_out)
        pages = cut_into_pages(without_last(pieces, leave_out), document, pen, frame);
    return pages;
}

/// Pages on a frame that is larger than the paper by 1 / scale, margins and all.
struct Sheet {
    double scale = 1.0;
    Frame frame;
    std::vector<Page> pages;
};

Sheet sheet_at(double scale, const Document& document, const Pen& pen, double width_pt, double height_pt)
{
    const Frame frame{width_pt / scale, height_pt / scale};
    return {scale, frame, pages_of(document, pen, frame)};
}

/// The largest print that stays within the pages wanted; full size when none does.
Sheet fitted_sheet(const Document& document, const Pen& pen, double width_pt, double height_pt)
{
    auto full = sheet_at(1.0, document, pen, width_pt, height_pt);
    if (document.most_pages == 0) return full;
    const auto wanted = static_cast<std::size_t>(document.most_pages);
    if (full.pages.size() <= wanted) return full;
    for (const double scale : {0.95, 0.9, 0.85}) {
        auto smaller = sheet_at(scale, document, pen, width_pt, height_pt);
        if (smaller.pages.size() <= wanted) return smaller;
    }
    return full;
}

void draw_placed(cairo_t* canvas, const PlacedPiece& placed, const Frame& frame)
{
    if (placed.ruled)
        draw_line(canvas, side_margin_pt, placed.y_pt, side_margin_pt + frame.width_pt(), placed.y_pt, 0.7,
                  0.45);
    placed.piece.draw(canvas, side_margin_pt, placed.y_pt);
}

void draw_foot(cairo_t* canvas, const Document& document, const Pen& pen, const Frame& frame,
               std::size_t page, std::size_t pages)
{
    const Look look{.size_pt = 7.0, .grey = 0.35};
    const auto made = pen.set(fmt::format("harpkeep · {}", iso_date(document.day)), look);
    const auto number = pen.set(fmt::format("page {} of {}", page, pages), look);
    const double y = frame.page_height_pt - 10.0 * points_in_mm;
    made.draw(canvas, side_margin_pt, y);
    number.draw(canvas, frame.page_width_pt - side_margin_pt - number.width_pt(), y);
}

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length)
{
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void describe(cairo_surface_t* surface, const Document& document)
{
    const auto title = document.subject.empty() ? document.title : document.title + ": " + document.subject;
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "harpkeep");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE,
                                   (iso_date(first_day(document.day)) + "T12:00:00Z").c_str());
}

} // namespace

Result<std::string> pdf_of(const Document& document, Paper paper)
{
    const Pen pen;
    if (!pen.has_font())
        return failure(ErrorCode::unavailable,
                       "setting a report: the font DejaVu Sans is not installed; install "
                       "the package fonts-dejavu-core");
    const auto size = size_of(paper);
    const double width_pt = size.width.value() * points_in_mm;
    const double height_pt = size.height.value() * points_in_mm;
    const auto sheet = fitted_sheet(document, pen, width_pt, height_pt);
    std::string bytes;
    const std::shared_ptr<cairo_surface_t> surface{
        cairo_pdf_surface_create_for_stream(append, &bytes, width_pt, height_pt), cairo_surface_destroy};
    describe(surface.get(), document);
    const std::shared_ptr<cairo_t> canvas{cairo_create(surface.get()), cairo_destroy};
    cairo_scale(canvas.get(), sheet.scale, sheet.scale);
    for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
        for (const PlacedPiece& placed : sheet.pages[i]) draw_placed(canvas.get(), placed, sheet.frame);
        draw_foot(canvas.get(), document, pen, sheet.frame, i + 1, sheet.pages.size());
        cairo_show_page(canvas.get());
    }
    cairo_surface_finish(surface.get());
    for (const auto status : {cairo_status(canvas.get()), cairo_surface_status(surface.get())})
        if (status != CAIRO_STATUS_SUCCESS)
            return failure(ErrorCode::unavailable,
                           fmt::format("making a PDF file: {}", cairo_status_to_string(status)));
    return bytes;
}

} // namespace harpkeep::report
