// SPDX-License-Identifier: MIT
#include "db/records/open_checks.hpp"

#include "tests/src/live/player.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <tuple>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

struct WithHarp {
    db::Ledger ledger = ledger_in_memory();
    HarpDetails details = concert_harp("Heron");
    Uuid harp = db::add_harp(ledger, that_evening(), details).value();
};

void add_partials(PluckMeasurement& measured)
{
    measured.inharmonicity = 1.0 / 7000.0;
    measured.beat_rate_hz = 0.7;
    measured.degrees_of_freedom = 5.5;
    measured.glide_cents = 1.25;
    measured.glide_uncertainty_cents = 0.375;
    for (int n = 1; n <= 4; ++n)
        measured.partials.push_back({.number = n,
                                     .frequency_hz = n * measured.frequency_hz / 3.0,
                                     .uncertainty_cents = 0.1 / n,
                                     .noise_cents = 0.01 * n,
                                     .level_db = -20.0 * n,
                                     .decay_s = 1.0 / n,
                                     .glide_cents = 0.3 * n});
}

// Bound by name and number: a new member of a measurement does not compile here before it is stored as well.
auto members_of(const Partial& partial)
{
    const auto& [number, frequency_hz, uncertainty_cents, noise_cents, level_db, decay_s, glide_cents] =
        partial;
    return std::tie(number, frequency_hz, uncertainty_cents, noise_cents, level_db, decay_s, glide_cents);
}

/// All but the rivals, which are decided on before a reading is kept.
bool same(const PluckMeasurement& a, const PluckMeasurement& b)
{
    const auto members_of_pluck = [](const PluckMeasurement& pluck) {
        const auto& [start_s, frequency_hz, uncertainty_cents, degrees_of_freedom, inharmonicity, glide_cents,
                     glide_uncertainty_cents, decay_s, snr_db, beat_rate_hz, partials, rivals, doubts] =
            pluck;
        return std::tie(start_s, frequency_hz, uncertainty_cents, degrees_of_freedom, inharmonicity,
                        glide_cents, glide_uncertainty_cents, decay_s, snr_db, beat_rate_hz, doubts);
    };
    return members_of_pluck(a) == members_of_pluck(b) &&
           std::equal(a.partials.begin(), a.partials.end(), b.partials.begin(), b.partials.end(),
                      [](const Partial& p, const Partial& q) { return members_of(p) == members_of(q); });
}

bool same(const KeptReading& a, const KeptReading& b)
{
    return a.station == b.station && a.superseded == b.superseded && a.reading.place == b.reading.place &&
           a.reading.position == b.reading.position && a.reading.file_index == b.reading.file_index &&
           same(a.reading.pluck, b.reading.pluck);
}

void check_same(const GuidedCheckState& a, const GuidedCheckState& b)
{
    CHECK(a.request == b.request);
    CHECK(a.station == b.station);
    CHECK(a.given_up == b.given_up);
    REQUIRE(a.readings.size() == b.readings.size());
    for (std::size_t k = 0; k < a.readings.size(); ++k) CHECK(same(a.readings[k], b.readings[k]));
}

} // namespace

TEST_CASE("open check: comes back to the last bit, and the guided check goes on from it", "[db]")
{
    WithHarp given;
    const CheckPlanRequest request{
        .way = CheckWay::one_octave, .harp_octave = 4, .from_top = true, .closing_strings = 2};
    auto check = GuidedCheck::begin(given.details.layout, request).value();
    const auto id = db::begin_open_check(given.ledger, that_evening(), given.harp, Hertz{442.0}, request);
    REQUIRE(id);
    Player player{given.details.layout, 1};
    for (int k = 0; k < 9; ++k) {
        const CheckTarget target = *check.view().next;
        player.pluck(check, target.place, target.position, add_partials);
        REQUIRE(db::store_progress(given.ledger, *id, check.state()));
    }
    const auto open = db::open_checks_of(given.ledger, given.harp);
    REQUIRE(open);
    REQUIRE(open->size() == 1);
    CHECK(open->front().a4 == Hertz{442.0});
    CHECK(open->front().begun.utc_ms == an_evening.utc_ms);
    check_same(open->front().state, check.state());
    const auto resumed = GuidedCheck::resume(given.details.layout, open->front().state);
    CHECK(resumed.value().view().next == check.view().next);
}

TEST_CASE("open check: what was superseded, taken back or given up is stored as such", "[db]")
{
    WithHarp given;
    const CheckPlanRequest request{
        .way = CheckWay::some_strings, .strings = {{Letter::C, 4}, {Letter::D, 4}}, .closing_strings = 0};
    auto check = GuidedCheck::begin(given.details.layout, request).value();
    const Uuid id =
        db::begin_open_check(given.ledger, that_evening(), given.harp, Hertz{440.0}, request).value();
    Player player{given.details.layout, 2};
    player.pluck(check, {Letter::C, 4}, Position::flat);
    REQUIRE(db::store_progress(given.ledger, id, check.state()));
    player.pluck(check, {Letter::C, 4}, Position::flat); // once more
    REQUIRE(db::store_progress(given.ledger, id, check.state()));
    check.take_back();
    check.leave_station();
    check.leave_station();
    check.leave_station();
    REQUIRE(db::store_progress(given.ledger, id, check.state()));
    check_same(db::open_checks_of(given.ledger, given.harp)->front().state, check.state());
}

TEST_CASE("open check: its sessions are counted, each with its recording", "[db]")
{
    WithHarp given;
    const Uuid id = db::begin_open_check(given.ledger, that_evening(), given.harp, Hertz{440.0}, {}).value();
    CHECK(db::begin_session(given.ledger, id, "heron.flac").value() == 0);
    CHECK(db::begin_session(given.ledger, id, "").value() == 1);
    CHECK(db::open_checks_of(given.ledger, given.harp)->front().recordings ==
          std::vector<std::string>{"heron.flac", ""});
}

TEST_CASE("open check: is gone when it was dropped, and only then", "[db]")
{
    WithHarp given;
    const Uuid first =
        db::begin_open_check(given.ledger, that_evening(), given.harp, Hertz{440.0}, {}).value();
    const Uuid second =
        db::begin_open_check(given.ledger, that_evening(), given.harp, Hertz{440.0}, {}).value();
    REQUIRE(db::drop_open_check(given.ledger, first));
    const auto open = db::open_checks_of(given.ledger, given.harp).value();
    REQUIRE(open.size() == 1);
    CHECK(open.front().id == second);
    CHECK(db::drop_open_check(given.ledger, first).error().code == ErrorCode::not_found);
    CHECK(db::store_progress(given.ledger, first, {}).error().code == ErrorCode::not_found);
}

TEST_CASE("open check: a program that is killed loses no reading that was kept", "[db]")
{
    TemporaryFolder folder;
    const std::string path = folder / "school.harpkeep";
    const HarpDetails details = concert_harp("Heron");
    Uuid harp;
    {
        auto ledger = db::Ledger::open(path, db::Access::create, an_evening).value();
        harp = db::add_harp(ledger, that_evening(), details).value();
    }
    const pid_t child = fork();
    if (child == 0) {
        auto ledger = db::Ledger::open(path, db::Access::write, an_evening).value();
        auto check = GuidedCheck::begin(details.layout, {}).value();
        const Uuid id = db::begin_open_check(ledger, that_evening(), harp, Hertz{440.0}, {}).value();
        Player player{details.layout, 3};
        for (int k = 0; k < 20; ++k) {
            player.pluck(check, *check.view().next);
            if (!db::store_progress(ledger, id, check.state())) _exit(1);
        }
        raise(SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));
    const auto ledger = db::Ledger::open(path, db::Access::read, an_evening).value();
    const auto open = db::open_checks_of(ledger, harp).value();
    REQUIRE(open.size() == 1);
    CHECK(open.front().state.readings.size() == 20);
}
