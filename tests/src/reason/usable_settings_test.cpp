// SPDX-License-Identifier: MIT
#include "reason/enharmonics.hpp"
#include "reason/usable_settings.hpp"

#include "harp/expected_pitch.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace harpkeep;

namespace {

struct Check {
    HarpLayout layout = make_layout({}).value();
    std::vector<StepError> steps;
};

Check good_check()
{
    Check check;
    for (const auto& string : check.layout.strings)
        if (string.has_natural_disc)
            for (const Step step : {Step::lower, Step::upper})
                check.steps.push_back({string.place, step, 0.5, 0.2, 9.0});
    return check;
}

UsableSettings usable(const Check& check)
{
    return find_usable_settings(check.layout, check.steps, {}, {});
}

Reading reading(const HarpString& string, Position position, double off_cents)
{
    Reading made{.place = string.place, .position = position};
    made.pluck.frequency_hz = raised(expected_pitch(string, position, 440.0_Hz), Cents{off_cents}).value();
    made.pluck.uncertainty_cents = 0.3;
    made.pluck.degrees_of_freedom = 8.0;
    return made;
}

} // namespace

TEST_CASE("usable settings: a good harp can play in all of them", "[reason]")
{
    const auto table = usable(good_check());
    CHECK(table.settings == 2187);
    CHECK(table.usable == 2187);
    CHECK(table.keys.size() >= 15);
    for (const auto& key : table.keys) CHECK(key.conformity == Conformity::within);
}

TEST_CASE("usable settings: one bad sharp takes the third of settings that use it", "[reason]")
{
    auto check = good_check();
    for (auto& step : check.steps)
        if (step.place == *place_from_harp_name("3F") && step.step == Step::upper) step.error_cents = -15.0;
    const auto table = usable(check);
    CHECK(table.not_usable == 729); // F sharp in 3^6 settings
    CHECK(table.usable == 2187 - 729);
    const auto g_major = judge_setting(table, setting_from_text("G major").value());
    CHECK(g_major.conformity == Conformity::out);
    CHECK(g_major.worst.worst == place_from_harp_name("3F"));
    CHECK(g_major.worst.greatest_cents == Approx(-14.5)); // both steps
    CHECK(judge_setting(table, setting_from_text("F major").value()).conformity == Conformity::within);
}

TEST_CASE("usable settings: a letter that was never measured is not proven", "[reason]")
{
    auto check = good_check();
    std::erase_if(check.steps, [](const StepError& s) { return s.place.letter == Letter::B; });
    const auto table = usable(check);
    CHECK(table.usable == 729); // B flat, the open string
    CHECK(table.not_proven == 2 * 729);
    CHECK(table.with_gaps == 2 * 729);
    CHECK(table.notes == 90);          // 45 strings with discs, natural and sharp
    CHECK(table.notes_measured == 78); // without 6B to 1B
    CHECK(judge_setting(table, setting_from_text("C major").value()).not_measured == 6); // 6B to 1B
}

TEST_CASE("usable settings: a lever harp has only what its levers allow", "[reason]")
{
    Check check{make_layout({.kind = HarpKind::lever, .string_count = 34}).value(), {}};
    for (const auto& string : check.layout.strings)
        check.steps.push_back({string.place, Step::lower, 1.0, 0.2, 9.0});
    const auto table = usable(check);
    CHECK(table.settings == 128); // two positions of seven letters
    CHECK(judge_setting(table, setting_from_text("E flat major").value()).impossible == 0);
    CHECK(judge_setting(table, setting_from_text("E major").value()).impossible == 0); // all engaged
    CHECK(judge_setting(table, setting_from_text("D flat major").value()).impossible >
          0); // no D flat, G flat
}

TEST_CASE("enharmonics: C sharp and D flat in cents and beats", "[reason]")
{
    const auto layout = make_layout({}).value();
    const auto& c4 = *find_string(layout, {Letter::C, 4});
    const auto& d4 = *find_string(layout, {Letter::D, 4});
    const auto pairs = compare_enharmonics(
        layout, std::vector{reading(c4, Position::sharp, 4.0), reading(d4, Position::flat, -1.0)});
    REQUIRE(pairs.size() == 1);
    CHECK(pairs[0].cents == Approx(-5.0).margin(1e-9));                              // rounding
    CHECK(pairs[0].uncertainty_cents == Approx(0.3 * std::sqrt(2.0)).epsilon(1e-9)); // rounding
    CHECK(pairs[0].frequency_hz ==
          Approx(277.1826 * std::exp2(4.0 / 1200.0)).margin(5e-5)); // C#4, last digit
    // 5 cents at 277 Hz: 277.18 * (2^(4/1200) - 2^(-1/1200)).
    CHECK(pairs[0].beats_per_second == Approx(0.8014).margin(5e-4)); // last digit
}

TEST_CASE("enharmonics: every pair of a concert harp", "[reason]")
{
    const auto layout = make_layout({}).value();
    std::vector<Reading> readings;
    for (const auto& string : layout.strings)
        for (const Position position : positions_of(layout.kind, string))
            readings.push_back(reading(string, position, 0.0));
    const auto pairs = compare_enharmonics(layout, readings);
    int semitone_pairs = 0;
    for (const auto& pair : pairs) {
        CHECK(pair.cents == Approx(0.0).margin(1e-9)); // rounding
        semitone_pairs += pair.lower_place.letter == Letter::E || pair.lower_place.letter == Letter::B;
    }
    // Of 46 gaps seven are E-F and six B-C: two keys each (E = F flat, E sharp = F); the 33 others have one,
    // but for the two above 7C and 7D, which cannot be raised.
    CHECK(semitone_pairs == 26);
    CHECK(pairs.size() == 26 + 33 - 2);
}

TEST_CASE("enharmonics: doubtful readings are left out, repeats averaged", "[reason]")
{
    const auto layout = make_layout({}).value();
    const auto& c4 = *find_string(layout, {Letter::C, 4});
    const auto& d4 = *find_string(layout, {Letter::D, 4});
    auto doubtful = reading(c4, Position::sharp, 30.0);
    doubtful.pluck.doubts = {Doubt::beating};
    const auto pairs = compare_enharmonics(layout, std::vector{doubtful, reading(c4, Position::sharp, 1.0),
                                                               reading(c4, Position::sharp, 1.2),
                                                               reading(d4, Position::flat, 0.0)});
    REQUIRE(pairs.size() == 1);
    CHECK(pairs[0].cents == Approx(-1.1).margin(1e-6)); // rounding
    CHECK(pairs[0].rests_on == 3);
}
