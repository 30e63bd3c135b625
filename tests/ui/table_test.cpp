// SPDX-License-Identifier: MIT
#include "ui/dashboard/widgets/table.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep::dashboard;

namespace {

TableModel three_harps()
{
    return {{{"Harp"}, {"Out"}},
            {{"h", {{"Heron", {}}, {"7", 7.0}}},
             {"w", {{"Wren", {}}, {"", {}}}},
             {"k", {{"Kestrel", {}}, {"12", 12.0}}}}};
}

} // namespace

TEST_CASE("table: figures sort by value, empty cells last either way", "[ui]")
{
    TableState state;
    state.sort_column = 1;
    CHECK(arranged_rows(three_harps(), state) == std::vector{0, 2, 1});
    state.descending = true;
    CHECK(arranged_rows(three_harps(), state) == std::vector{2, 0, 1});
}

TEST_CASE("table: texts sort by letters, unsorted rows stay as they come", "[ui]")
{
    TableState state;
    CHECK(arranged_rows(three_harps(), state) == std::vector{0, 1, 2});
    state.sort_column = 0;
    CHECK(arranged_rows(three_harps(), state) == std::vector{0, 2, 1});
}

TEST_CASE("table: a filter keeps rows that hold all its words", "[ui]")
{
    TableState state;
    state.filter = " KES 12";
    CHECK(arranged_rows(three_harps(), state) == std::vector{2});
    state.filter = "heron 12";
    CHECK(arranged_rows(three_harps(), state).empty());
}

TEST_CASE("table: sorting is a permutation and does not change a sorted table", "[ui][property]")
{
    TableModel model{{{"n"}}, {}};
    for (int i = 0; i < 200; ++i)
        model.rows.push_back({std::to_string(i), {{std::to_string(i), (i * 37) % 101 * 1.0}}});
    TableState state;
    state.sort_column = 0;
    auto order = arranged_rows(model, state);
    auto copy = order;
    for (std::size_t i = 1; i < order.size(); ++i)
        CHECK(*model.rows[static_cast<std::size_t>(order[i - 1])].cells[0].sort_by <=
              *model.rows[static_cast<std::size_t>(order[i])].cells[0].sort_by);
    std::sort(copy.begin(), copy.end());
    for (int i = 0; i < 200; ++i) CHECK(copy[static_cast<std::size_t>(i)] == i);
}

TEST_CASE("table: CSV quotes, ends lines and disarms formulas as it should", "[ui]")
{
    TableModel model{
        {{"a,b"}, {"note"}},
        {{"1", {{"say \"hi\"", {}}, {"=SUM(A1)", {}}}}, {"2", {{"\u22123.2", -3.2}, {"+x", {}}}}}};
    // RFC 4180: CRLF, fields with comma or quote in quotes, quotes doubled.
    CHECK(csv_of(model, {0, 1}) == "\"a,b\",note\r\n\"say \"\"hi\"\"\",'=SUM(A1)\r\n-3.2,'+x\r\n");
}

TEST_CASE("table: where the room is short, columns leave in the order told, the others never", "[ui]")
{
    TableModel model;
    for (const int leaves : {0, 1, 0, 2})
        model.columns.push_back({.title = "x", .width = 84.0F, .leaves = leaves});
    using Columns = std::vector<std::size_t>;
    CHECK(columns_with_room(model, 400.0F) == Columns{0, 1, 2, 3}); // 4 * (84 + 16)
    CHECK(columns_with_room(model, 399.0F) == Columns{0, 1, 2});
    CHECK(columns_with_room(model, 299.0F) == Columns{0, 2});
    CHECK(columns_with_room(model, 1.0F) == Columns{0, 2}); // it then scrolls sideways
}
