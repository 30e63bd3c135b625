// SPDX-License-Identifier: MIT
#include "db/records/open_checks.hpp"

#include "tests/src/live/player.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

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
    for (int n = 1; n <= 4; ++n)
        measured.partials.push_back({.number = n,
                                     .frequency_hz = n * measured.frequency_hz / 3.0,
                                     .uncertainty_cents = 0.1 / n,
                                     .noise_cents = 0.01 * n,
                                     .level_db = -20.0 * n,
                                     .decay_s = 1.0 / n});
}

bool same(const KeptReading& a, const KeptReading& b)
{
    const auto& p = a.reading.pluck;
    const auto& q = b.reading.pluck;
    bool partials = p.partials.size() == q.partials.size();
    for (std::size_t k = 0; partials && k < p.partials.size(); ++k)
        partials = p.partials[k].number == q.partials[k].number &&
                   p.partials[k].frequency_hz == q.partials[k].frequency_hz &&
                   p.partials[k].uncertainty_cents == q.partials[k].uncertainty_cents &&
                   p.partials[k].noise_cents == q.partials[k].noise_cents &&
                   p.partials[k].level_db == q.partials[k].level_db &&
                   p.partials[k].decay_s == q.partials[k].decay_s;
    return partials && a.station == b.station && a.superseded == b.superseded &&
           a.reading.place == b.reading.place && a.reading.position == b.reading.position &&
           p.frequency_hz == q.frequency_hz && p.start_s == q.start_s &&
           p.uncertainty_cents == q.uncertainty_cents && p.inharmonicity == q.inharmonicity &&
           p.beat_rate_hz == q.beat_rate_hz && p.doubts == q.doubts;
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
    const std::string path = folder.file("school.harpkeep");
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
