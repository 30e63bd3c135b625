// SPDX-License-Identifier: MIT
#include "db/records/checks.hpp"

#include "db/ledger/things.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;
using Catch::Matchers::WithinAbs;

namespace {

struct WithHarp {
    db::Ledger ledger = ledger_in_memory();
    HarpDetails details = concert_harp("Heron");
    Uuid harp = db::add_harp(ledger, that_evening(), details).value();
};

constexpr std::int64_t ms_per_day = 86'400'000;

Moment days_later(int days)
{
    return {an_evening.utc_ms + days * ms_per_day, an_evening.offset_minutes};
}

} // namespace

TEST_CASE("store_check: readings come back in the order of sounding, to the resolution of the store", "[db]")
{
    WithHarp given;
    const CheckResult result = whole_check(given.details.layout, 1);
    const auto id = db::store_check(given.ledger, that_evening(), header_of(given.harp, an_evening), result);
    REQUIRE(id);
    const auto stored = db::check(given.ledger, *id, db::WithPartials::yes);
    REQUIRE(stored);
    REQUIRE(stored->result.readings.size() == result.readings.size());
    double worst_uncertainty_cents = 0.0, worst_time_s = 0.0, worst_decay_s = 0.0;
    for (std::size_t i = 0; i < result.readings.size(); ++i) {
        const Reading& before = result.readings[i];
        const Reading& after = stored->result.readings[i];
        CHECK(after.place == before.place);
        CHECK(after.position == before.position);
        CHECK(after.pluck.frequency_hz == before.pluck.frequency_hz);
        CHECK(after.pluck.doubts == before.pluck.doubts);
        CHECK(after.pluck.beat_rate_hz.has_value() == before.pluck.beat_rate_hz.has_value());
        CHECK(after.pluck.partials.size() == before.pluck.partials.size());
        const auto& a = after.pluck;
        const auto& b = before.pluck;
        worst_uncertainty_cents =
            std::max(worst_uncertainty_cents, std::abs(a.uncertainty_cents - b.uncertainty_cents));
        worst_time_s = std::max(worst_time_s, std::abs(a.start_s - b.start_s));
        worst_decay_s = std::max(worst_decay_s, std::abs(a.decay_s - b.decay_s));
    }
    CHECK_THAT(worst_uncertainty_cents, WithinAbs(0.0, 0.5001e-6)); // half a microcent
    CHECK_THAT(worst_time_s, WithinAbs(0.0, 0.5001e-3));            // half a millisecond
    CHECK_THAT(worst_decay_s, WithinAbs(0.0, 0.5001e-3));           // half a millisecond
}

TEST_CASE("store_check: steps, whole steps, missing, ignored and remarks come back", "[db]")
{
    WithHarp given;
    CheckResult result = whole_check(given.details.layout, 2);
    result.a4_hz = 442.0;
    result.missing = {{*place_from_harp_name("3D"), Position::sharp}};
    result.ignored = {{0, 12.345, "knock"}, {0, 99.0, "speech, \"hello\""}};
    result.remarks = {"8 kHz: nothing above 4 kHz", "one channel is silent"};
    const auto id =
        db::store_check(given.ledger, that_evening(), header_of(given.harp, an_evening), result).value();
    const auto stored = db::check(given.ledger, id).value().result;
    CHECK(stored.a4_hz == 442.0);
    REQUIRE(stored.steps.size() == 90);
    REQUIRE(stored.whole_steps.size() == 45);
    CHECK_THAT(stored.steps[7].error_cents,
               WithinAbs(result.steps[7].error_cents, 0.5001e-6)); // half a microcent
    CHECK(stored.steps[7].place == result.steps[7].place);
    CHECK(stored.steps[7].step == result.steps[7].step);
    CHECK_THAT(stored.whole_steps[7].error_cents,
               WithinAbs(result.whole_steps[7].error_cents, 0.5001e-6)); // as above
    REQUIRE(stored.missing.size() == 1);
    CHECK(harp_name(stored.missing[0].place) == "3D");
    CHECK(stored.missing[0].position == Position::sharp);
    REQUIRE(stored.ignored.size() == 2);
    CHECK(stored.ignored[0].start_s == 12.345);
    CHECK(stored.ignored[1].reason == "speech, \"hello\"");
    CHECK(stored.remarks == result.remarks);
}

TEST_CASE("store_check: the header comes back with its recordings", "[db]")
{
    WithHarp given;
    CheckHeader header = header_of(given.harp, an_evening);
    header.temperature = Celsius{21.5};
    header.humidity = RelativeHumidity{47.0};
    header.remarks = "after the rehearsal";
    const auto id = db::store_check(given.ledger, that_evening(), header, {}).value();
    const auto stored = db::check(given.ledger, id).value().header;
    CHECK(stored.harp_id == given.harp);
    CHECK(stored.taken == an_evening);
    CHECK(stored.method == pitch_method);
    CHECK(stored.recordings == header.recordings);
    CHECK(stored.temperature == header.temperature);
    CHECK(stored.humidity == header.humidity);
    CHECK(stored.remarks == header.remarks);
}

TEST_CASE("store_check: repeats of one string and position are all kept", "[db]")
{
    WithHarp given;
    CheckResult result;
    for (const double start_s : {3.0, 1.0, 2.0}) {
        Reading reading{.place = *place_from_harp_name("4C"), .position = Position::natural};
        reading.pluck.start_s = start_s;
        reading.pluck.frequency_hz = 261.6 + start_s;
        result.readings.push_back(reading);
    }
    const auto id =
        db::store_check(given.ledger, that_evening(), header_of(given.harp, an_evening), result).value();
    const auto readings = db::check(given.ledger, id).value().result.readings;
    REQUIRE(readings.size() == 3);
    CHECK(readings[0].pluck.frequency_hz == 262.6);
    CHECK(readings[2].pluck.frequency_hz == 264.6);
}

TEST_CASE("store_check: endless degrees of freedom stay endless", "[db]")
{
    WithHarp given;
    CheckResult result;
    result.steps.push_back(
        {*place_from_harp_name("4C"), Step::lower, 1.0, 0.1, std::numeric_limits<double>::infinity()});
    const auto id =
        db::store_check(given.ledger, that_evening(), header_of(given.harp, an_evening), result).value();
    CHECK(std::isinf(db::check(given.ledger, id).value().result.steps[0].degrees_of_freedom));
}

TEST_CASE("store_check: a number that is none is refused, and nothing is stored", "[db]")
{
    WithHarp given;
    CheckResult result = whole_check(given.details.layout, 3);
    result.steps.back().error_cents = std::numeric_limits<double>::quiet_NaN();
    const auto id = db::store_check(given.ledger, that_evening(), header_of(given.harp, an_evening), result);
    REQUIRE_FALSE(id);
    CHECK(id.error().message.find("error of a step") != std::string::npos);
    CHECK(db::checks_of(given.ledger, given.harp)->empty());
    CHECK(given.ledger.database().integer_of("SELECT count(*) FROM check_reading") == 0);
}

TEST_CASE("store_check: an unknown harp is refused", "[db]")
{
    WithHarp given;
    const auto id = db::store_check(given.ledger, that_evening(), header_of(Uuid{}, an_evening), {});
    CHECK(id.error().code == ErrorCode::not_found);
}

TEST_CASE("checks_of: lists the youngest first, with counts", "[db]")
{
    WithHarp given;
    for (const int day : {1, 3, 2})
        REQUIRE(db::store_check(given.ledger, that_evening(), header_of(given.harp, days_later(day)),
                                whole_check(given.details.layout, static_cast<unsigned>(day))));
    const auto checks = db::checks_of(given.ledger, given.harp).value();
    REQUIRE(checks.size() == 3);
    CHECK(checks[0].header.taken == days_later(3));
    CHECK(checks[2].header.taken == days_later(1));
    CHECK(checks[0].reading_count == 137);
    CHECK(checks[0].step_count == 90);
    CHECK(checks[0].missing_count == 0);
    CHECK(db::latest_check(given.ledger, given.harp).value()->id == checks[0].id);
}

TEST_CASE("step_history: has every check's steps, oldest first", "[db]")
{
    WithHarp given;
    for (const int day : {2, 1})
        REQUIRE(db::store_check(given.ledger, that_evening(), header_of(given.harp, days_later(day)),
                                whole_check(given.details.layout, static_cast<unsigned>(day))));
    const auto history = db::step_history(given.ledger, given.harp).value();
    REQUIRE(history.size() == 2);
    CHECK(history[0].header.taken == days_later(1));
    CHECK(history[0].result.steps.size() == 90);
    CHECK(history[0].result.readings.empty());
}

TEST_CASE("make_void: a void check does not count any more, but its rows stay", "[db]")
{
    WithHarp given;
    const auto id = db::store_check(given.ledger, that_evening(), header_of(given.harp, an_evening),
                                    whole_check(given.details.layout, 4))
                        .value();
    CHECK_FALSE(db::make_void(given.ledger, that_evening(), id, ""));
    REQUIRE(db::make_void(given.ledger, that_evening(), id, "it was another harp"));
    CHECK(db::checks_of(given.ledger, given.harp)->empty());
    CHECK_FALSE(db::latest_check(given.ledger, given.harp).value());
    CHECK(given.ledger.database().integer_of("SELECT count(*) FROM check_reading") == 137);
}
