// SPDX-License-Identifier: MIT
#include "exchange/harp_pedals_xml.hpp"

#include <catch2/catch.hpp>

#include <fstream>
#include <sstream>

using namespace harpkeep;

namespace {

std::string golden()
{
    std::ifstream file{HARPKEEP_TESTS_FOLDER "/golden/harp_pedals_example.xml"};
    REQUIRE(file);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

PedalSetting example()
{
    return pedal_setting_from_text("Db C# Bb E Fb G A#").value();
}

} // namespace

// The example of the W3C MusicXML 4.0 reference for harp-pedals: D-1 C+1 B-1 E0 F-1 G0 A+1.
TEST_CASE("harp pedals: are written as in the example of W3C", "[exchange][golden][reference]")
{
    CHECK(harp_pedals_xml(example()) == golden());
}

TEST_CASE("harp pedals: the example of W3C is read", "[exchange][golden][reference]")
{
    CHECK(pedal_settings_from_xml(golden()).value() == std::vector{example()});
}

TEST_CASE("harp pedals: a pedal that is not named stays, comments and attributes do not matter", "[exchange]")
{
    const auto settings = pedal_settings_from_xml(R"(<score><!-- <harp-pedals></harp-pedals> -->
        <harp-pedals default-y="12" print-object="yes"><pedal-tuning><pedal-step>F</pedal-step><pedal-alter>1</pedal-alter>
        </pedal-tuning></harp-pedals> <harp-pedals>
        <pedal-tuning> <pedal-step> B </pedal-step> <pedal-alter>-1.0</pedal-alter> </pedal-tuning></harp-pedals></score>)")
                              .value();
    REQUIRE(settings.size() == 2);
    CHECK(pedal_names(settings[0]) == "D C B | E F# G A");
    CHECK(pedal_names(settings[1]) == "D C Bb | E F# G A");
}

TEST_CASE("harp pedals: every setting round trips", "[exchange][property]")
{
    int wrong = 0;
    for (int code = 0; code < 2187; code += 7) { // every seventh of 3^7
        PedalSetting setting;
        int rest = code;
        for (const Letter letter : all_letters) {
            setting.set(letter, rest % 3 - 1);
            rest /= 3;
        }
        if (pedal_settings_from_xml(harp_pedals_xml(setting)).value() != std::vector{setting}) ++wrong;
    }
    CHECK(wrong == 0);
}

TEST_CASE("harp pedals: what is none is told", "[exchange]")
{
    CHECK_FALSE(pedal_settings_from_xml(""));
    CHECK_FALSE(pedal_settings_from_xml("<harp-pedals><pedal-tuning><pedal-step>H</pedal-step>"
                                        "<pedal-alter>0</pedal-alter></pedal-tuning></harp-pedals>"));
    CHECK_FALSE(pedal_settings_from_xml("<harp-pedals><pedal-tuning><pedal-step>A</pedal-step>"
                                        "<pedal-alter>0.5</pedal-alter></pedal-tuning></harp-pedals>"));
    CHECK_FALSE(pedal_settings_from_xml("<harp-pedals><pedal-tuning><pedal-step>A</pedal-step>"));
}
