// SPDX-License-Identifier: MIT
#include "db/records/packed_partials.hpp"

#include "db/sqlite/ledger_failure.hpp"
#include "tests/support/example_ledger.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;
using Catch::Matchers::WithinAbs;

namespace {

std::vector<Reading> without_partials(std::vector<Reading> readings)
{
    for (Reading& reading : readings) {
        reading.pluck.partials.clear();
        // As the row of the reading keeps it.
        reading.pluck.inharmonicity = std::round(reading.pluck.inharmonicity * 1e9) / 1e9;
    }
    return readings;
}

} // namespace

TEST_CASE("pack_partials: come back to the resolution that is promised", "[db][property]")
{
    const auto readings = whole_check(make_layout({}).value(), 11).readings;
    auto restored = without_partials(readings);
    db::unpack_partials(db::pack_partials(readings), restored);
    double cents = 0.0, uncertainty = 0.0, level_db = 0.0, decay = 0.0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        REQUIRE(restored[i].pluck.partials.size() == readings[i].pluck.partials.size());
        for (std::size_t k = 0; k < readings[i].pluck.partials.size(); ++k) {
            const Partial& before = readings[i].pluck.partials[k];
            const Partial& after = restored[i].pluck.partials[k];
            CHECK(after.number == before.number);
            cents = std::max(
                cents, std::abs(interval(Hertz{before.frequency_hz}, Hertz{after.frequency_hz}).value()));
            uncertainty =
                std::max(uncertainty, std::abs(after.uncertainty_cents / before.uncertainty_cents - 1.0));
            level_db = std::max(level_db, std::abs(after.level_db - before.level_db));
            decay = std::max(decay, std::abs(after.decay_s / before.decay_s - 1.0));
        }
    }
    CHECK_THAT(cents, WithinAbs(0.0, 0.00051));    // half of the step of 0.001 cent
    CHECK_THAT(uncertainty, WithinAbs(0.0, 0.04)); // half of the step of 10^(1/32)
    CHECK_THAT(level_db, WithinAbs(0.0, 0.2501));  // half of the step of 0.5 dB
    CHECK_THAT(decay, WithinAbs(0.0, 0.025));      // half of the step of 10^(1/48)
}

TEST_CASE("pack_partials: takes about six bytes a partial", "[db]")
{
    const auto readings = whole_check(make_layout({}).value(), 12).readings;
    CHECK(db::pack_partials(readings).size() < 7 * 10 * readings.size());
}

TEST_CASE("pack_partials: strange partials survive", "[db]")
{
    Reading reading;
    reading.pluck.frequency_hz = 440.0;
    reading.pluck.partials = {{5, 4000.0, 0.0, 3.0, 0.0}, {1, 20.0, 1e4, -300.0, 1e5}};
    std::vector<Reading> restored{reading};
    restored[0].pluck.partials.clear();
    db::unpack_partials(db::pack_partials(std::vector{reading}), restored);
    REQUIRE(restored[0].pluck.partials.size() == 2);
    CHECK(restored[0].pluck.partials[0].number == 5);
    CHECK(restored[0].pluck.partials[0].uncertainty_cents == 0.0);
    CHECK(restored[0].pluck.partials[1].number == 1);
    CHECK_THAT(restored[0].pluck.partials[1].frequency_hz,
               WithinAbs(20.0, 1e-4)); // 0.001 cent of 20 Hz is 1e-5 Hz
}

TEST_CASE("unpack_partials: bytes that do not fit are refused", "[db]")
{
    const auto readings = whole_check(make_layout({}).value(), 13).readings;
    auto packed = db::pack_partials(readings);
    auto fresh = without_partials(readings);
    const auto shorter = std::span{packed}.first(packed.size() - 1);
    CHECK_THROWS_AS(db::unpack_partials(shorter, fresh), db::LedgerFailure);
    packed.push_back(0);
    fresh = without_partials(readings);
    CHECK_THROWS_AS(db::unpack_partials(packed, fresh), db::LedgerFailure);
}
