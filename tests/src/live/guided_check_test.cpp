// SPDX-License-Identifier: MIT
#include "player.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;
using harpkeep::test::Player;
using harpkeep::test::said;

namespace {

constexpr StringPlace c4{Letter::C, 4};
constexpr StringPlace d4{Letter::D, 4};
constexpr StringPlace e4{Letter::E, 4};
constexpr StringPlace f4{Letter::F, 4};
constexpr StringPlace g4{Letter::G, 4};

HarpLayout concert_harp()
{
    return *make_layout({.kind = HarpKind::pedal, .string_count = 47});
}

GuidedCheck check_of(const HarpLayout& layout, const CheckPlanRequest& request)
{
    return *GuidedCheck::begin(layout, request);
}

/// The strings 4C to 3C, two positions apart from nothing: a short check to try things on.
GuidedCheck short_check(const HarpLayout& layout, int closing_strings = 0)
{
    return check_of(
        layout,
        {.way = CheckWay::some_strings, .strings = {c4, d4, e4, f4, g4}, .closing_strings = closing_strings});
}

} // namespace

TEST_CASE("guided check: a whole harp sounded in order needs one pluck for each string and position",
          "[live]")
{
    const auto kind = GENERATE(HarpKind::pedal, HarpKind::lever);
    const auto way = GENERATE(CheckWay::pass_by_pass, CheckWay::string_by_string, CheckWay::pedal_by_pedal);
    const bool from_top = GENERATE(false, true);
    CAPTURE(static_cast<int>(kind), way_name(way), from_top);
    const auto layout = *make_layout({.kind = kind, .string_count = kind == HarpKind::pedal ? 47 : 34});
    auto check = check_of(layout, {.way = way, .from_top = from_top});
    Player player{layout, 1};

    player.play_on(check, static_cast<int>(check.plan().target_count()));

    CHECK(check.complete());
    CHECK(player.wrong_places(check) == 0);
    CHECK(check.state().readings.size() == check.plan().target_count());
}

TEST_CASE("guided check: plucks may come in any order", "[live]")
{
    const unsigned seed = GENERATE(range(1U, 9U));
    const auto layout = concert_harp();
    auto check = check_of(layout, {.closing_strings = 0});
    Player player{layout, seed};
    std::mt19937 shuffle{seed};

    for (const CheckStation& station : check.plan().stations) {
        auto targets = station.targets;
        std::shuffle(targets.begin(), targets.end(), shuffle);
        for (const CheckTarget& target : targets) player.pluck(check, target);
        // Those that fitted two strings equally well are asked for again.
        while (!check.complete() && check.view().setting == station.setting)
            player.pluck(check, *check.view().next);
    }

    CHECK(check.complete());
    CHECK(player.wrong_places(check) == 0);
}

TEST_CASE("guided check: a pedal left in another position is named and nothing of it is kept", "[live]")
{
    const Letter letter =
        GENERATE(Letter::C, Letter::D, Letter::E, Letter::F, Letter::G, Letter::A, Letter::B);
    const bool from_top = GENERATE(false, true);
    CAPTURE(letter_name(letter), from_top);
    const auto layout = concert_harp();
    auto check = check_of(layout, {.from_top = from_top, .closing_strings = 0});
    Player player{layout, 5};

    // The whole flat pass with one pedal in natural.
    bool named = false;
    for (const CheckTarget& target : check.plan().stations[0].targets) {
        const bool left =
            target.place.letter == letter && find_string(layout, target.place)->has_natural_disc;
        const auto outcome = player.pluck(check, target.place, left ? Position::natural : target.position);
        for (const CheckNotice& notice : outcome.notices) {
            const bool about_position =
                notice.kind == NoticeKind::wrong_position || notice.kind == NoticeKind::pedal_wrong;
            named |= about_position && notice.target->place.letter == letter;
            named |= notice.kind == NoticeKind::ambiguous && notice.alternative->place.letter == letter;
        }
    }

    CHECK(named);
    CHECK(player.wrong_places(check) == 0);
    CHECK_FALSE(check.view().passed_over.empty());
    player.play_on(check);
    CHECK(check.complete());
    CHECK(player.wrong_places(check) == 0);
}

TEST_CASE("guided check: several strings of one letter off make it the pedal", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(layout, {.way = CheckWay::one_pedal, .letter = Letter::D, .closing_strings = 0});
    Player player{layout, 2};
    CHECK(said(player.pluck(check, {Letter::D, 2}, Position::natural), NoticeKind::wrong_position));
    const auto second = player.pluck(check, {Letter::D, 3}, Position::natural);
    REQUIRE(said(second, NoticeKind::pedal_wrong));
    CHECK(notice_text(second.notices.back(), HarpKind::pedal) ==
          "the D pedal stands in natural: several of its strings say so. Put it to flat and pluck again.");
}

TEST_CASE("guided check: pedals not moved at all are noticed and nothing is kept", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(layout, {.closing_strings = 0});
    Player player{layout, 3};
    player.play_on(check, 47);
    REQUIRE(check.view().station == 1);
    const auto before = check.state().readings.size();
    bool noticed = false;
    for (const CheckTarget& target : check.plan().stations[1].targets)
        noticed |= said(player.pluck(check, target.place, Position::flat), NoticeKind::old_setting);
    CHECK(noticed);
    CHECK(check.state().readings.size() == before);
}

TEST_CASE("guided check: goes along when the player moves on, and comes back for what is missing", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(layout, {.closing_strings = 3});
    Player player{layout, 4};
    for (const CheckTarget& target : check.plan().stations[0].targets)
        if (target.place != d4) player.pluck(check, target);
    REQUIRE(check.view().passed_over == std::vector{CheckTarget{d4, Position::flat}});

    for (const CheckTarget& target : check.plan().stations[1].targets) player.pluck(check, target);
    // Those that told that the player had moved on are kept, too.
    CHECK(check.state().readings.size() == 46 + 45);
    player.play_on(check);

    CHECK(check.complete());
    CHECK(player.wrong_places(check) == 0);
    CHECK(std::any_of(check.state().readings.begin(), check.state().readings.end(),
                      [](const KeptReading& kept) {
                          return kept.reading.place == d4 && kept.reading.position == Position::flat;
                      }));
}

TEST_CASE("guided check: a string passed over is said and may be plucked later", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 6};
    player.pluck(check, c4, Position::flat);
    player.pluck(check, d4, Position::flat);
    player.pluck(check, e4, Position::flat);
    const auto outcome = player.pluck(check, g4, Position::flat);
    REQUIRE(said(outcome, NoticeKind::skipped));
    CHECK(check.view().next == CheckTarget{f4, Position::flat});
    player.pluck(check, f4, Position::flat);
    CHECK(check.view().station == 1);
}

TEST_CASE("guided check: a string plucked twice alike counts twice", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 7};
    player.pluck(check, c4, Position::flat);
    CHECK(said(player.pluck(check, c4, Position::flat), NoticeKind::repeated));
    REQUIRE(check.state().readings.size() == 2);
    CHECK_FALSE(check.state().readings[0].superseded);
    CHECK(check.view().done == 1);
}

TEST_CASE("guided check: a string plucked again otherwise replaces the reading, the old one stays on record",
          "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 7};
    const auto five_cents_sharp = [](PluckMeasurement& measured) { measured.frequency_hz *= 1.0029; };
    player.pluck(check, c4, Position::flat, five_cents_sharp);
    CHECK(said(player.pluck(check, c4, Position::flat), NoticeKind::replaced));
    REQUIRE(check.state().readings.size() == 2);
    CHECK(check.state().readings[0].superseded);
    CHECK_FALSE(check.state().readings[1].superseded);
    CHECK(check.view().done == 1);
}

TEST_CASE("guided check: a sound whose likelier pitch fits nothing is placed by its rival", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 20};
    const auto octave_above = [](PluckMeasurement& measured) {
        measured.rivals.push_back(measured);
        measured.frequency_hz *= 2.15; // between 3C and 3D flat
    };
    const auto outcome = player.pluck(check, c4, Position::flat, octave_above);
    REQUIRE(outcome.kept.size() == 1);
    CHECK(outcome.kept.front().reading.place == c4);
    CHECK(outcome.kept.front().reading.pluck.rivals.empty());
    CHECK(player.wrong_places(check) == 0);
}

TEST_CASE("guided check: a doubtful pluck is asked for again, the third is kept with its doubt", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 8};
    const auto beating = [](PluckMeasurement& measured) { measured.doubts.push_back(Doubt::beating); };
    const auto first = player.pluck(check, c4, Position::flat, beating);
    REQUIRE(said(first, NoticeKind::ask_again));
    CHECK(first.notices.back().doubt == Doubt::beating);
    CHECK(first.kept.empty());
    player.pluck(check, c4, Position::flat, beating);
    const auto third = player.pluck(check, c4, Position::flat, beating);
    CHECK(said(third, NoticeKind::accepted_doubtful));
    REQUIRE(third.kept.size() == 1);
    CHECK_FALSE(third.kept.front().reading.pluck.trusted());
}

TEST_CASE("guided check: how exact is good enough depends on the octave", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(
        layout, {.way = CheckWay::some_strings, .strings = {c4, {Letter::C, 7}}, .closing_strings = 0});
    Player player{layout, 9};
    const auto half_a_cent = [](PluckMeasurement& measured) { measured.uncertainty_cents = 0.5; };
    CHECK(said(player.pluck(check, c4, Position::flat, half_a_cent), NoticeKind::too_uncertain));
    CHECK(said(player.pluck(check, {Letter::C, 7}, Position::flat, half_a_cent), NoticeKind::accepted));
}

TEST_CASE("guided check: talk and knocks change nothing", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 10};
    player.pluck(check, c4, Position::flat);
    CHECK(said(player.knock(check), NoticeKind::ignored));
    CHECK(check.view().next == CheckTarget{d4, Position::flat});
}

TEST_CASE("guided check: shows the next string as soon as a sounding one is good", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 11};
    const auto measured = player.measurement(c4, Position::flat);
    check.handle(PluckBegan{0, 1_s});
    check.handle(PluckEstimated{0, Seconds{1.4}, measured});
    CHECK(check.view().next == CheckTarget{d4, Position::flat});
    CHECK(check.state().readings.empty());

    SECTION("the next one begins before the first has ended")
    {
        check.handle(PluckBegan{1, 2_s});
        check.handle(PluckEstimated{1, Seconds{2.4}, player.measurement(d4, Position::flat)});
        check.handle(PluckEnded{0, Seconds{2.5}, measured});
        check.handle(PluckEnded{1, 4_s, player.measurement(d4, Position::flat)});
        CHECK(check.state().readings.size() == 2);
        CHECK(player.wrong_places(check) == 0);
    }
    SECTION("it turns out bad in the end and is asked for again")
    {
        auto disturbed = measured;
        disturbed.doubts.push_back(Doubt::disturbed);
        CHECK(said(check.handle(PluckEnded{0, 3_s, disturbed}), NoticeKind::ask_again));
        CHECK(check.view().next == CheckTarget{c4, Position::flat});
    }
}

TEST_CASE("guided check: taking back asks for the last string again", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 12};
    player.pluck(check, c4, Position::flat);
    player.pluck(check, d4, Position::flat);
    const auto taken_back = check.take_back();
    REQUIRE(taken_back);
    CHECK(taken_back->reading.place == d4);
    CHECK(check.view().next == CheckTarget{d4, Position::flat});
    check.take_back();
    CHECK_FALSE(check.take_back());
}

TEST_CASE("guided check: taking back reaches into the part before", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 13};
    player.play_on(check, 5);
    REQUIRE(check.view().station == 1);
    check.take_back();
    CHECK(check.view().station == 0);
    CHECK(check.view().next == CheckTarget{g4, Position::flat});
}

TEST_CASE("guided check: while paused nothing is heard", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 14};
    check.pause(true);
    CHECK(player.pluck(check, c4, Position::flat).kept.empty());
    check.pause(false);
    CHECK(player.pluck(check, c4, Position::flat).kept.size() == 1);
}

TEST_CASE("guided check: goes on another day where it was left", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(layout, {});
    Player player{layout, 15};
    player.play_on(check, 60);
    const GuidedCheckState saved = check.state();

    auto resumed = *GuidedCheck::resume(layout, saved);
    CHECK(resumed.view().next == check.view().next);
    CHECK(resumed.view().done == 60);
    player.play_on(resumed);
    CHECK(resumed.complete());
    CHECK(resumed.state().readings.size() == resumed.plan().target_count());
    CHECK(player.wrong_places(resumed) == 0);
}

TEST_CASE("guided check: a stored check of another harp is refused", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(layout, {});
    Player player{layout, 16};
    player.play_on(check, 5); // 7C to 7G are no strings of a small lever harp
    const auto small = *make_layout({.kind = HarpKind::lever, .string_count = 22});
    CHECK(GuidedCheck::resume(small, check.state()).error().code == ErrorCode::corrupt);
}

TEST_CASE("guided check: the closing strings show how the harp drifted", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout, 5);
    Player player{layout, 17};
    player.play_on(check, 15);
    CHECK_FALSE(check.view().drift);
    player.drift_cents = -2.5;
    player.play_on(check);
    REQUIRE(check.complete());
    const auto drift = check.view().drift;
    REQUIRE(drift);
    CHECK(drift->strings == 5);
    CHECK(drift->shift.value() ==
          Approx(-2.5).margin(0.3)); // scatter of a pluck 0.1 cent, twice, five strings
    CHECK(drift->uncertainty.value() < 0.2);
}

TEST_CASE("guided check: a part left twice is given up", "[live]")
{
    const auto layout = concert_harp();
    auto check = short_check(layout);
    Player player{layout, 18};
    CHECK(said(check.leave_station(), NoticeKind::left_for_later));
    CHECK(check.view().station == 1);
    player.play_on(check, 10);
    CHECK(check.view().station == 0);
    CHECK(said(check.leave_station(), NoticeKind::complete));
    CHECK(check.state().given_up.size() == 5);
    CHECK(check.view().done == 10);
}

TEST_CASE("guided check: the time left follows the player's pace", "[live]")
{
    const auto layout = concert_harp();
    auto check = check_of(layout, {.closing_strings = 0});
    Player player{layout, 19};
    player.play_on(check, 10);
    // 127 plucks of 2 s and 14 pedals of 2 s
    CHECK(check.view().time_left->value() == Approx(127 * 2.0 + 14 * 2.0));
    player.play_on(check);
    CHECK_FALSE(check.view().time_left);
}

TEST_CASE("guided check: never keeps a reading under the wrong string, one mishap at a time",
          "[live][property]")
{
    const unsigned seed = GENERATE(range(100U, 140U));
    CAPTURE(seed);
    const auto layout = concert_harp();
    const bool from_top = seed % 2 == 0;
    auto check = check_of(layout, {.from_top = from_top});
    Player player{layout, seed};
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> chance{0.0, 1.0};
    std::optional<Letter> forgotten; // a pedal that stands in another position than asked for
    int plucks = 0;

    for (; plucks < 600 && !check.complete(); ++plucks) {
        player.drift_cents += 0.002; // a cent in the course of a check
        const auto view = check.view();
        CheckTarget target = *view.next;
        if (chance(random) < 0.03) player.knock(check);
        if (chance(random) < 0.02) forgotten = all_letters[random() % 7];
        if (chance(random) < 0.15) forgotten.reset(); // read the screen at last
        // skips a string, or plucks the one before again
        const auto& order = check.plan().stations[view.station].targets;
        const auto place = std::find(order.begin(), order.end(), target) - order.begin();
        const double slip = forgotten ? 1.0 : chance(random);
        if (slip < 0.03 && place + 1 < static_cast<std::ptrdiff_t>(order.size()))
            target = order[static_cast<std::size_t>(place) + 1];
        else if (slip < 0.06 && place > 0)
            target = order[static_cast<std::size_t>(place) - 1];
        if (forgotten == target.place.letter && find_string(layout, target.place)->has_natural_disc)
            target.position = target.position == Position::natural ? Position::flat : Position::natural;
        player.pluck(check, target);
    }
    CHECK(check.complete());
    CHECK(plucks < 400);      // 142 without mishaps
    player.drift_cents = 0.3; // the middle of what it was
    CHECK(player.wrong_places(check) == 0);
}
