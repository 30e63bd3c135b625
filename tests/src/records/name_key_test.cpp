// SPDX-License-Identifier: MIT
#include "records/display_width.hpp"
#include "records/name_key.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

// Unicode Standard, 3.13 and CaseFolding.txt (sharp s, final sigma), UAX #15 (composition); from memory.
TEST_CASE("name_key: names that a person calls the same have one key", "[records][reference]")
{
    CHECK(name_key("Heron") == name_key("  HERON "));
    CHECK(name_key("Großer Reiher") == name_key("GROSSER  REIHER"));
    CHECK(name_key("\u00C9lan") == name_key("e\u0301LAN"));
    CHECK(name_key("\u039F\u03B4\u03BF\u03C2") == name_key("\u039F\u0394\u039F\u03A3"));
}

TEST_CASE("name_key: other names have other keys", "[records]")
{
    CHECK(name_key("Heron") != name_key("Héron"));
    CHECK(name_key("Wren 1") != name_key("Wren 2"));
}

TEST_CASE("name_key: what cannot be a name has none", "[records]")
{
    for (const char* wrong : {"", "   ", "He\nron", "He\tron", "\xC3\x28", "\x7F"})
        CHECK_FALSE(name_key(wrong));
}

TEST_CASE("display_width: counts what a terminal shows", "[records]")
{
    CHECK(display_width("Heron") == 5);
    CHECK(display_width("Élan") == 4);
    CHECK(display_width("e\u0301lan") == 4);
    CHECK(display_width("\u7434") == 2);
    CHECK(display_width("\xFF") == 1);
}
