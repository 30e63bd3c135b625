// SPDX-License-Identifier: MIT
//
// Somebody who plays the passes from memory and never looks at what the check asks for.
#include "player.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace harpkeep;
using harpkeep::test::Player;
using harpkeep::test::said;

namespace {

HarpLayout concert_harp()
{
    return *make_layout({.kind = HarpKind::pedal, .string_count = 47});
}

} // namespace

TEST_CASE("guided check: follows somebody who never looks, through skipped, doubled and spoilt plucks",
          "[live][property]")
{
    const unsigned seed = GENERATE(range(200U, 260U));
    CAPTURE(seed);
    const auto layout = concert_harp();
    auto check = *GuidedCheck::begin(layout, {.from_top = seed % 2 == 0, .closing_strings = 0});
    Player player{layout, seed};
    std::mt19937 random{seed};
    std::uniform_real_distribution<double> chance{0.0, 1.0};
    std::size_t sounded = 0;

    const auto stations = check.plan().stations;
    for (const CheckStation& station : stations)
        for (const CheckTarget& target : station.targets) {
            const double slip = chance(random);
            if (slip < 0.03) continue; // left out
            if (slip < 0.06) {         // spoilt, and not noticed
                player.pluck(check, target.place, target.position,
                             [](PluckMeasurement& measured) { measured.doubts.push_back(Doubt::disturbed); });
                continue;
            }
            if (slip < 0.09) player.pluck(check, target); // twice
            if (slip < 0.12) player.knock(check);
            player.pluck(check, target);
            ++sounded;
        }

    CHECK(player.wrong_places(check) == 0);
    const auto kept = static_cast<double>(check.view().done);
    CHECK(kept >= 0.97 * static_cast<double>(sounded)); // a few fit two strings equally well
}

TEST_CASE("guided check: a syllable at the pitch of a string far away is not kept", "[live]")
{
    const auto layout = concert_harp();
    auto check = *GuidedCheck::begin(layout, {.closing_strings = 0});
    Player player{layout, 31};
    player.play_on(check, 10);
    const auto before = check.state().readings.size();

    auto measured = player.measurement({Letter::A, 6}, Position::flat);
    measured.uncertainty_cents = 0.12; // as it was measured once
    check.handle(PluckBegan{50, Seconds{player.time_s}});
    const auto outcome = check.handle(PluckEnded{50, Seconds{player.time_s + 0.6}, measured});

    CHECK(outcome.kept.empty());
    CHECK(said(outcome, NoticeKind::ignored));
    CHECK(check.state().readings.size() == before);
}

TEST_CASE(
    "guided check: the octave of a low string that is awaited is asked for again, not taken for another",
    "[live]")
{
    const auto layout = concert_harp();
    auto check = *GuidedCheck::begin(layout, {.from_top = true, .closing_strings = 0});
    Player player{layout, 32};
    const StringPlace low_b{Letter::B, 1}; // 6B
    while (check.view().next->place != low_b) player.pluck(check, *check.view().next);
    // The engine heard 6B an octave too high, where 5B was kept before.
    const auto outcome = player.pluck(check, low_b, Position::flat,
                                      [](PluckMeasurement& measured) { measured.frequency_hz *= 2.0; });
    CHECK(outcome.kept.empty());
    CHECK(said(outcome, NoticeKind::ambiguous));
    CHECK(check.view().next->place == low_b);
}
