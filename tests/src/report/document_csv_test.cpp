// SPDX-License-Identifier: MIT
#include "exchange/csv.hpp"
#include "report/document_csv.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::report;

namespace {

Document two_tables()
{
    Table strings{.name = "strings", .columns = {{"String"}}};
    strings.rows.push_back(
        {.cells = {"4C"}, .fields = {{"place", std::string{"4C"}}, {"error_cents", 1.25}}});
    strings.rows.push_back({.fields = {{"place", std::string{"4D, \"old\""}}, {"error_cents", {}}}});
    Table visits{.name = "visits", .columns = {{"Date"}}};
    visits.rows.push_back(
        {.cells = {"x"}, .fields = {{"work", std::string{"=1+1"}}, {"count", std::int64_t{3}}}});
    Document document{.kind = "technician", .main_table = "strings"};
    document.sections = {{"strings", "", {strings}}, {"visits", "", {visits}}};
    return document;
}

} // namespace

TEST_CASE("csv_of: gives the main table with rows that paper leaves out, and reads back",
          "[report][property]")
{
    const auto text = csv_of(two_tables());
    REQUIRE(text);
    const auto table = read_csv(*text);
    REQUIRE(table);
    REQUIRE(table->rows.size() == 3);
    CHECK(table->rows[0][0].text == "place");
    CHECK(table->rows[0][1].text == "error_cents");
    CHECK(table->rows[1][1].text == "1.25");
    CHECK(table->rows[2][0].text == "4D, \"old\"");
    CHECK(table->rows[2][1].text.empty()); // a null
}

TEST_CASE("csv_of: words that a spreadsheet would take for a formula are guarded", "[report]")
{
    CHECK(csv_of(two_tables(), "visits")->find("'=1+1,3\r\n") != std::string::npos);
}

TEST_CASE("csv_of: names the tables there are when one is asked for that is not", "[report]")
{
    const auto none = csv_of(two_tables(), "pedals");
    REQUIRE_FALSE(none);
    CHECK(none.error().code == ErrorCode::not_found);
    CHECK(none.error().message.find("strings, visits") != std::string::npos);
}

TEST_CASE("data_tables: the facts of a section are one row", "[report]")
{
    Document document;
    document.sections = {
        {"harp", "", {Facts{{{"A", "1", {{"a", std::int64_t{1}}}}, {"B", "2", {{"b", 2.0}}}}}}}};
    const auto tables = data_tables(document);
    REQUIRE(tables.size() == 1);
    CHECK(tables[0].name == "harp");
    CHECK(tables[0].rows == std::vector<std::vector<Field>>{{{"a", std::int64_t{1}}, {"b", 2.0}}});
}
