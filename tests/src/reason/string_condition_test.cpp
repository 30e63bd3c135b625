// SPDX-License-Identifier: MIT
#include "reason/ring_contrast.hpp"
#include "reason/string_condition.hpp"
#include "tests/support/sounded_harp.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

std::vector<StringCondition> conditions_of(const Sounded& harp, std::vector<StringAge> ages = {})
{
    return find_string_conditions(harp.layout, harp.readings, ages);
}

auto place(const char* name)
{
    return *place_from_harp_name(name);
}

} // namespace

TEST_CASE("string condition: a sound harp has none", "[reason]")
{
    int found = 0;
    for (std::uint64_t seed = 1; seed <= 20; ++seed)
        found += static_cast<int>(conditions_of(sound_harp(seed, [](Reading&, int) {})).size());
    CHECK(found <= 1); // 900 strings
}

TEST_CASE("string condition: a string that comes back high is named with its cents", "[reason]")
{
    const auto harp = sound_harp(1, [](Reading& reading, int turn) {
        if (reading.place == place("3A") && turn == 3) raise(reading, 6.0);
    });
    const auto found = conditions_of(harp);
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == ConditionKind::no_return);
    CHECK(found[0].place == place("3A"));
    CHECK(found[0].certainty == Conformity::out);
    CHECK(found[0].value == Approx(6.0).margin(1.0)); // four times root two of 0.2, and scatter of the plucks
    CHECK(found[0].lower < 6.0);
    CHECK(found[0].upper > 6.0);
}

// "Rules and regulations" (page title): in the top octaves strings may not come back to the same flat.
TEST_CASE("string condition: four cents of return in the top octave are no fault", "[reason]")
{
    const auto harp = sound_harp(2, [](Reading& reading, int turn) {
        if (reading.place.harp_octave() <= 1 && turn == 3) raise(reading, 3.5);
    });
    CHECK(conditions_of(harp).empty());
}

TEST_CASE("string condition: a harp that sinks as a whole has no string to blame", "[reason]")
{
    const auto harp = sound_harp(3, [](Reading& reading, int turn) {
        if (turn == 3) raise(reading, -7.0);
    });
    CHECK(conditions_of(harp).empty());
}

TEST_CASE("string condition: beating in every position is a false string", "[reason]")
{
    const auto harp = sound_harp(4, [](Reading& reading, int) {
        if (reading.place != place("2C")) return;
        reading.pluck.doubts = {Doubt::beating};
        reading.pluck.beat_rate_hz = 1.7;
    });
    const auto found = conditions_of(harp);
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == ConditionKind::false_string);
    CHECK(found[0].place == place("2C"));
    CHECK(found[0].beat_rate_hz == 1.7);
    CHECK(found[0].positions_affected == 3);
    CHECK(found[0].value < 0.001); // three positions by accident where hardly any reading beats
}

TEST_CASE("string condition: beating in one position only is no false string", "[reason]")
{
    const auto harp = sound_harp(5, [](Reading& reading, int) {
        if (reading.place == place("2C") && reading.position == Position::natural)
            reading.pluck.doubts = {Doubt::beating};
    });
    CHECK(conditions_of(harp).empty());
}

TEST_CASE("string condition: beating everywhere is the room, not the strings", "[reason]")
{
    const auto harp = sound_harp(6, [](Reading& reading, int) { reading.pluck.doubts = {Doubt::beating}; });
    CHECK(conditions_of(harp).empty());
}

TEST_CASE("string condition: partials off the series in every position are a false string", "[reason]")
{
    const auto harp = sound_harp(7, [](Reading& reading, int) {
        if (reading.place != place("4D")) return;
        reading.pluck.partials[1].frequency_hz *= std::exp2(9.0 / 1200.0);
        reading.pluck.partials[3].frequency_hz *= std::exp2(-11.0 / 1200.0);
    });
    const auto found = conditions_of(harp);
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == ConditionKind::false_string);
    // Root mean square over six partials of 9 and 11 cents: 5.8, and the fifth of a cent of each.
    CHECK(*found[0].irregular_cents == Approx(5.8).margin(0.5));
}

TEST_CASE("string condition: half the ring in one position is the grip of that disc", "[reason]")
{
    const auto harp = sound_harp(8, [](Reading& reading, int) {
        if (reading.place != place("3E") || reading.position != Position::sharp) return;
        for (auto& partial : reading.pluck.partials) partial.decay_s *= 0.4;
    });
    const auto found = conditions_of(harp);
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == ConditionKind::poor_ring);
    CHECK(found[0].position == Position::sharp);
    CHECK(found[0].value == Approx(0.4).margin(0.08)); // a tenth of scatter in each decay
    CHECK(found[0].lower < 0.4);
    CHECK(found[0].upper > 0.4);
}

TEST_CASE("string condition: a string that rings short in all positions has no bad disc", "[reason]")
{
    const auto harp = sound_harp(9, [](Reading& reading, int) {
        if (reading.place != place("3E")) return;
        for (auto& partial : reading.pluck.partials) partial.decay_s *= 0.4;
    });
    CHECK(conditions_of(harp).empty());
}

TEST_CASE("string condition: a string five days old is still settling", "[reason]")
{
    const auto harp = sound_harp(10, [](Reading&, int) {});
    const auto found = conditions_of(harp, {{place("1A"), 5}, {place("1B"), 60}});
    REQUIRE(found.size() == 1);
    CHECK(found[0].kind == ConditionKind::settling);
    CHECK(found[0].place == place("1A"));
    CHECK(found[0].value == 5.0);
}

TEST_CASE("partial irregularity: none for a stiff string's own series, whatever its pitch",
          "[reason][property]")
{
    Dice dice(1);
    for (const double frequency_hz : {31.0, 440.0, 3000.0}) {
        auto pluck = pluck_of(frequency_hz, 1.0, 0.0, dice);
        for (auto& partial : pluck.partials) {
            const double n = partial.number;
            partial.frequency_hz =
                n * frequency_hz * std::sqrt((1.0 + stiffness * n * n) / (1.0 + stiffness));
        }
        CHECK(*partial_irregularity_cents(pluck) == Approx(0.0).margin(1e-9)); // rounding
    }
    CHECK_FALSE(partial_irregularity_cents(PluckMeasurement{}));
}

TEST_CASE("ring contrast: louder strings or other units of time change nothing", "[reason][property]")
{
    auto harp = sound_harp(11, [](Reading&, int) {});
    const auto before = ring_contrasts(harp.readings);
    for (auto& reading : harp.readings)
        for (auto& partial : reading.pluck.partials) partial.decay_s *= 1000.0;
    const auto after = ring_contrasts(harp.readings);
    REQUIRE(before.size() == 45);
    REQUIRE(after.size() == before.size());
    for (std::size_t i = 0; i < before.size(); ++i)
        CHECK(after[i].share == Approx(before[i].share).epsilon(1e-9)); // rounding
}
