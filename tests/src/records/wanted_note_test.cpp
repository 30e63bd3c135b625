// SPDX-License-Identifier: MIT
#include "records/wanted_note.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

TEST_CASE("wanted_part: is what follows the mark, for notes that have it", "[records]")
{
    const auto part = [](const char* words) { return wanted_part(Note{.words = words}); };
    CHECK(part("wanted: felts for the F pedal") == "felts for the F pedal");
    CHECK(part("Wanted:disc of 4C") == "disc of 4C");
    CHECK_FALSE(part("wanted:  "));
    CHECK_FALSE(part("wante"));
    CHECK_FALSE(part("buzzes; a new disc is wanted: 3G"));
}

TEST_CASE("wanted_words: come back as they were written", "[records][property]")
{
    for (const char* words : {"felts", "disc: 4C", "wanted: twice"})
        CHECK(wanted_part(Note{.words = wanted_words(words)}) == words);
}
