// SPDX-License-Identifier: MIT
#include "exchange/csv.hpp"

#include <catch2/catch.hpp>

#include <random>

using namespace harpkeep;

namespace {

std::vector<std::vector<std::string>> texts_of(const Result<CsvTable>& table)
{
    std::vector<std::vector<std::string>> texts;
    for (const auto& row : table.value().rows) {
        texts.emplace_back();
        for (const CsvCell& cell : row) texts.back().push_back(cell.text);
    }
    return texts;
}

using Rows = std::vector<std::vector<std::string>>;

} // namespace

// RFC 4180, section 2, rules 1 to 7 with the examples given there.
TEST_CASE("csv: the examples of RFC 4180", "[exchange][reference]")
{
    CHECK(texts_of(read_csv("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")) ==
          Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(texts_of(read_csv("aaa,bbb,ccc\r\nzzz,yyy,xxx")) ==
          Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(texts_of(read_csv("\"aaa\",\"b\r\nbb\",\"ccc\"\r\n")) == Rows{{"aaa", "b\r\nbb", "ccc"}});
    CHECK(texts_of(read_csv("\"aaa\",\"b\"\"bb\",\"ccc\"")) == Rows{{"aaa", "b\"bb", "ccc"}});
    CHECK(texts_of(read_csv("\"\"\"Hello CSV\"\"\",\"a CRLF b,c\"")) ==
          Rows{{"\"Hello CSV\"", "a CRLF b,c"}});
}

TEST_CASE("csv: spaces are part of a cell, and empty lines are none", "[exchange]")
{
    CHECK(texts_of(read_csv(" a , b\n\n c , \n")) == Rows{{" a ", " b"}, {" c ", " "}});
    CHECK(texts_of(read_csv("\xEF\xBB\xBFname,b\n1,2")) == Rows{{"name", "b"}, {"1", "2"}});
    CHECK(texts_of(read_csv("a\rb\r")) == Rows{{"a"}, {"b"}});
}

TEST_CASE("csv: what is wrong is told with line and column", "[exchange]")
{
    const auto message = [](std::string_view text) { return read_csv(text).error().message; };
    CHECK(message("a,b\n1,2,3\n").find("line 2, column 1: 3 cells where the first line has 2") !=
          std::string::npos);
    CHECK(message("a,\"b\n1,2\n").find("line 1, column 3: the quote that opens here") != std::string::npos);
    CHECK(message("a,b\n1,\"2\"x\n").find("line 2, column 6: words after") != std::string::npos);
    CHECK(message("a,b\né,2\"\n").find("line 2, column 4: a quote inside") != std::string::npos);
    CHECK(message("a,b\n1,\xC3\x28\n").find("line 2, column 3: not UTF-8") != std::string::npos);
}

TEST_CASE("csv: any cells come back as they were written", "[exchange][property]")
{
    std::mt19937 random{4180};
    const std::vector<std::string> pieces{"a", "é", ",", "\"", "\n", " ", "=", "-", "'", "1", "@", "\t", ";"};
    for (int round = 0; round < 300; ++round) {
        Rows rows(1 + random() % 4, std::vector<std::string>(2 + random() % 3));
        for (auto& row : rows) row.resize(rows[0].size());
        for (auto& row : rows)
            for (auto& cell : row)
                for (auto i = random() % 6; i > 0; --i) cell += pieces[random() % pieces.size()];
        std::string text;
        for (const auto& row : rows) {
            std::vector<std::string> guarded;
            for (const auto& cell : row) guarded.push_back(guarded_cell(cell));
            text += csv_row(guarded);
        }
        auto read = texts_of(read_csv(text));
        for (auto& row : read)
            for (auto& cell : row) cell = unguarded_cell(cell);
        REQUIRE(read == rows);
    }
}

TEST_CASE("csv: no cell that is written can be a formula", "[exchange]")
{
    for (const char* formula : {"=1+1", "+cmd", "-2+3", "@SUM(A1)", "\t=1", "'=1"}) {
        CHECK(guarded_cell(formula).front() == '\'');
        CHECK(unguarded_cell(guarded_cell(formula)) == formula);
    }
    for (const char* harmless : {"-3.5", "+12", "-1e-3", "gut", "'tis", ""}) {
        CHECK(guarded_cell(harmless) == harmless);
        CHECK(unguarded_cell(harmless) == harmless);
    }
}

TEST_CASE("csv: the separator is seen in the first line", "[exchange]")
{
    CHECK(likely_separator("a,b,c\n1;2") == ',');
    CHECK(likely_separator("a;b;c\n1,2") == ';');
    CHECK(likely_separator("a\tb\tc") == '\t');
    CHECK(likely_separator("a") == ',');
}
