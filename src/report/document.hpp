// SPDX-License-Identifier: MIT
#pragma once

#include "harp/string_place.hpp"
#include "reason/conformity.hpp"
#include "units/date.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace harpkeep::report {

// A report before it is set on paper: what people read and what programs read side by side, so that paper,
// JSON and CSV cannot say different things.

/// One figure or word for programs; std::monostate is a null. The unit is in the field's name.
using FieldValue = std::variant<std::monostate, bool, std::int64_t, double, std::string>;
struct Field {
    std::string name;
    FieldValue value;

    bool operator==(const Field&) const = default;
};

/// The value as a field, null when there is none.
template <class T>
[[nodiscard]] FieldValue field_value(const std::optional<T>& value)
{
    if (!value) return {};
    return FieldValue{*value};
}

/// A label and what is known under it; `fields` say the same to programs.
struct Fact {
    std::string label;
    std::string words;
    std::vector<Field> fields;
};
/// Facts side by side in a grid.
struct Facts {
    std::vector<Fact> facts;
    int columns = 3;
};

enum class TextLook { lead, body, small };
/// Sentences, each in a paragraph of its own.
struct Sentences {
    std::vector<std::string> sentences;
    TextLook look = TextLook::body;
    bool marked = false; ///< a dash before each
};
/// What must not be overlooked because somebody can be hurt, in a frame.
struct Caution {
    std::vector<std::string> sentences;
};

enum class Align { left, right, centre };
struct Column {
    std::string heading;
    Align align = Align::left;
    bool wraps = false; ///< takes what the others leave, and breaks lines
};
struct Row {
    std::vector<std::string> cells; ///< one for each column; empty: this row is for programs only
    std::vector<Field> fields;
    bool strong = false;
};
struct Table {
    std::string name; ///< for programs: "strings"
    std::vector<Column> columns;
    std::vector<Row> rows;
    std::string when_empty; ///< stands on paper in place of a table without rows
    double text_pt = 8.0;
    bool tight = false; ///< rows close together, for lists that are to fit on one page
};

/// How a step stands; drawn as a shape, so that no colour is needed.
enum class Mark { within, watch, not_proven, out };
/// The word that goes with the mark's shape.
[[nodiscard]] std::string_view mark_words(Mark mark);

struct ChartPoint {
    StringPlace place;
    double cents = 0.0;
    double half_interval_cents = 0.0; ///< half of the 95 % interval
    Mark mark = Mark::within;
    std::optional<double> before_cents; ///< drawn as a ring with a line to the point
    std::vector<Field> fields;
};
/// One step of all strings.
struct ChartPanel {
    std::string title; ///< "flat to natural"
    std::vector<ChartPoint> points;
    std::vector<std::pair<StringPlace, ToleranceBand>> tolerances; ///< drawn behind the points
};
/// Steps along the neck, lowest string on the left.
struct NeckChart {
    std::string name; ///< for programs: "steps"
    std::vector<StringPlace> strings;
    std::vector<ChartPanel> panels;
    double panel_height_mm = 24.0;
};

/// Room to write in by hand.
struct WritingSpace {
    std::string label;
    int lines = 3;
    int least_lines = 3; ///< so many stay when leaving the others out saves a page
};
/// Places for names, dates and signatures, side by side.
struct SignatureLines {
    std::vector<std::string> labels;
};

using Block = std::variant<Facts, Sentences, Caution, Table, NeckChart, WritingSpace, SignatureLines>;

struct Section {
    std::string name;    ///< for programs: "verdict"
    std::string heading; ///< may be empty
    std::vector<Block> blocks;
};

struct Document {
    std::string kind;    ///< "technician"
    std::string title;   ///< "For the technician"
    std::string subject; ///< the harp or room, large beside the title
    std::string subtitle;
    Date day; ///< the day it speaks of; also the date inside the PDF file
    std::vector<Section> sections;
    std::string main_table; ///< the one that CSV gives when no other is asked for
    int most_pages = 0;     ///< print is made up to 15 % smaller to stay within them; 0: as many as it takes
};

/// The rows of one table or chart, or the facts of a section as one row.
struct DataTable {
    std::string name;
    std::vector<std::vector<Field>> rows;
};

/// Everything in a report that a program can read as rows, in the order of the report.
[[nodiscard]] std::vector<DataTable> data_tables(const Document& document);

} // namespace harpkeep::report
