// SPDX-License-Identifier: MIT
#include "ui/cli/terminal/block_letters.hpp"
#include "ui/cli/terminal/canvas.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep::cli;

TEST_CASE("canvas: text lands where it is put and is cut off at the edge", "[terminal]")
{
    Canvas canvas{2, 5};
    canvas.put(0, 3, "abc");
    canvas.put(7, 0, "nowhere");
    CHECK(canvas.text_of(0) == "   ab");
    CHECK(canvas.text_of(1).empty());
}

TEST_CASE("canvas: UTF-8 comes out as it went in", "[terminal][property]")
{
    const std::string text =
        GENERATE(as<std::string>{}, "4C\u266D", "\u2212 1.2 \u00B1 0.3", "\U0001D11E", "plain");
    std::string back;
    for (const char32_t character : characters_of(text)) back += utf8_of(character);
    CHECK(back == text);
}

TEST_CASE("canvas: malformed UTF-8 is marked, not fatal", "[terminal]")
{
    CHECK(characters_of("a\xFF"
                        "b") == U"a\uFFFDb");
    CHECK(characters_of("\xE2\x99") == U"\uFFFD\uFFFD");
}

TEST_CASE("canvas: long text breaks between words", "[terminal]")
{
    Canvas canvas{3, 12};
    CHECK(canvas.put_wrapped(0, 1, 10, 3, "let it ring a little longer") == 3);
    CHECK(canvas.text_of(0) == " let it");
    CHECK(canvas.text_of(1) == " ring a");
    CHECK(canvas.text_of(2) == " little");
}

TEST_CASE("canvas: only rows that changed are sent", "[terminal]")
{
    Canvas before{3, 4};
    before.put(1, 0, "same");
    Canvas after = before;
    CHECK(after.changes_from(before).empty());
    after.put(2, 0, "new");
    const std::string sent = after.changes_from(before);
    CHECK_THAT(sent, Catch::Contains("\x1b[3;1H") && Catch::Contains("new") && !Catch::Contains("same"));
}

TEST_CASE("canvas: a page of another size is sent whole", "[terminal]")
{
    Canvas after{2, 4};
    after.put(0, 0, "text");
    CHECK_THAT(after.changes_from(Canvas{0, 0}), Catch::Contains("\x1b[2J") && Catch::Contains("text"));
}

TEST_CASE("block letters: every sign that a name or a figure needs is there", "[terminal]")
{
    for (const char32_t sign : U"0123456789ABCDEFG\u266D\u266E\u266F+-\u2212.?")
        if (sign != U'\0') CHECK(block_letter_width(utf8_of(sign), 1) > 0);
}

TEST_CASE("block letters: the width is what is drawn", "[terminal][property]")
{
    const std::string text = GENERATE(as<std::string>{}, "4C\u266D", "+12.3", "\u22120.4");
    const int stretch = GENERATE(1, 2);
    Canvas canvas{block_letter_rows, 120};
    put_block_letters(canvas, 0, 0, text, stretch);
    std::size_t widest = 0;
    for (int row = 0; row < block_letter_rows; ++row)
        widest = std::max(widest, characters_of(canvas.text_of(row)).size());
    CHECK(static_cast<int>(widest) <= block_letter_width(text, stretch));
    CHECK(static_cast<int>(widest) > block_letter_width(text, stretch) - 3 * stretch);
}
