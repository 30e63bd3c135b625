// SPDX-License-Identifier: MIT
#include "harp/key_setting.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace harpkeep;

namespace {

PedalSetting setting_of(std::string_view text)
{
    const auto setting = setting_from_text(text);
    REQUIRE(setting);
    return *setting;
}

} // namespace

TEST_CASE("key setting: diagrams and letters round trip over all settings", "[harp][property]")
{
    const auto all = all_pedal_settings();
    CHECK(all.size() == 2187);
    std::set<std::string> different;
    for (const auto& setting : all) {
        different.insert(pedal_diagram(setting));
        CHECK(setting_of(pedal_diagram(setting)) == setting);
        CHECK(setting_of(pedal_names(setting)) == setting);
    }
    CHECK(different.size() == 2187);
}

// Key signatures: common practice.
TEST_CASE("key setting: keys by name", "[harp][reference]")
{
    const auto [name, notation] =
        GENERATE(std::pair{"C flat major", "^^^|^^^^"}, std::pair{"C", "---|----"},
                 std::pair{"c sharp major", "vvv|vvvv"}, std::pair{"Eb", "--^|^--^"},
                 std::pair{"E-flat major", "--^|^--^"}, std::pair{"E♭ major", "--^|^--^"},
                 std::pair{"D major", "-v-|-v--"}, std::pair{"a minor", "---|----"},
                 std::pair{"A harmonic minor", "---|--v-"}, std::pair{"A melodic minor", "---|-vv-"},
                 std::pair{"C minor", "--^|^--^"}, std::pair{"Cm", "--^|^--^"},
                 std::pair{"c harmonic minor", "---|^--^"}, std::pair{"F# minor", "-v-|-vv-"},
                 std::pair{"Bb", "--^|^---"}, std::pair{"bb minor", "^-^|^-^^"});
    CAPTURE(name);
    CHECK(pedal_diagram(setting_of(name)) == notation);
}

TEST_CASE("key setting: fifteen major keys, and a minor on each with at most seven signs", "[harp]")
{
    const auto majors = all_key_settings(false);
    REQUIRE(majors.size() == 15);
    CHECK(majors.front().name == "C flat major");
    CHECK(majors.back().name == "C sharp major");
    const auto all = all_key_settings(true);
    CHECK(std::count_if(all.begin(), all.end(), [](const KeySetting& key) {
              return key.name.find("harmonic") != std::string::npos;
          }) == 12); // G, D and A sharp would need a double sharp
    for (const auto& key : all) CHECK(setting_of(key.name) == key.setting);
}

TEST_CASE("key setting: what is none is refused with the ways to write it", "[harp]")
{
    for (const char* wrong : {"", "^v^|-^-", "^v^|-^-vv", "D C B E F G G", "H major", "G# major",
                              "G# harmonic minor", "C dorian", "D C# B | E F## G A"}) {
        CAPTURE(wrong);
        const auto setting = setting_from_text(wrong);
        REQUIRE_FALSE(setting);
        CHECK(setting.error().message.find("^v^|-^-v") != std::string::npos);
    }
}

TEST_CASE("key setting: the position that sounds an accidental", "[harp]")
{
    const auto pedal = make_layout({}).value();
    const auto& c4 = *find_string(pedal, {Letter::C, 4});
    CHECK(position_for(pedal.kind, c4, -1) == Position::flat);
    CHECK(position_for(pedal.kind, c4, 1) == Position::sharp);
    const auto& low_c = *find_string(pedal, {Letter::C, 1});
    CHECK(position_for(pedal.kind, low_c, -1) == Position::flat);
    CHECK_FALSE(position_for(pedal.kind, low_c, 0)); // no discs

    const auto lever = make_layout({.kind = HarpKind::lever, .string_count = 34}).value();
    const auto& b4 = *find_string(lever, {Letter::B, 4}); // open B flat
    CHECK(position_for(lever.kind, b4, -1) == Position::open);
    CHECK(position_for(lever.kind, b4, 0) == Position::engaged);
    CHECK_FALSE(position_for(lever.kind, b4, 1));
}
