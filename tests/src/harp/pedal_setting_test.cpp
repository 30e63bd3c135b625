// SPDX-License-Identifier: MIT
#include "harp/pedal_setting.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;

// W3C MusicXML 4.0, example of harp-pedals: D-1 C+1 B-1 E0 F-1 G0 A+1.
TEST_CASE("pedal setting: the example of MusicXML reads and writes", "[harp][reference]")
{
    PedalSetting expected;
    expected.set(Letter::D, -1);
    expected.set(Letter::C, 1);
    expected.set(Letter::B, -1);
    expected.set(Letter::F, -1);
    expected.set(Letter::A, 1);
    CHECK(pedal_setting_from_text("^v^|-^-v") == expected);
    CHECK(pedal_setting_from_text("Db C# Bb | E Fb G A#") == expected);
    CHECK(pedal_setting_from_text("A-sharp, B-flat, C-sharp, D-flat, F-flat") == expected);
    CHECK(pedal_diagram(expected) == "^v^|-^-v");
    CHECK(pedal_names(expected) == "Db C# Bb | E Fb G A#");
}

TEST_CASE("pedal setting: all settings round trip through both texts", "[harp][property]")
{
    int wrong = 0;
    for (int code = 0; code < 2187; ++code) { // 3^7
        PedalSetting setting;
        int rest = code;
        for (const Letter letter : all_letters) {
            setting.set(letter, rest % 3 - 1);
            rest /= 3;
        }
        if (pedal_setting_from_text(pedal_diagram(setting)) != setting) ++wrong;
        if (pedal_setting_from_text(pedal_names(setting)) != setting) ++wrong;
    }
    CHECK(wrong == 0);
}

TEST_CASE("pedal setting: what is none is told", "[harp]")
{
    for (const char* wrong : {"H", "Db D#", "^v^|-^-", "^v^|-^-vv", "C## D", "Cx"})
        CHECK_FALSE(pedal_setting_from_text(wrong));
}
