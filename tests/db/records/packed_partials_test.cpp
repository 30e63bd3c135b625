// SPDX-License-Identifier: MIT
#include "db/records/packed_partials.hpp"

#include "db/sqlite/ledger_failure.hpp"
#include "measure/check_assembly.hpp"
#include "tests/support/example_ledger.hpp"
#include "units/interval.hpp"

#include <catch2/catch.hpp>

using namespace harpkeep;
using namespace harpkeep::test;
using Catch::Matchers::WithinAbs;

namespace {

/// With frequency, inharmonicity and glide as the row of the reading keeps them.
std::vector<Reading> without_partials(std::vector<Reading> readings)
{
    for (Reading& reading : readings) {
        reading.pluck.partials.clear();
        reading.pluck.glide_uncertainty_cents = 0.0;
        reading.pluck.inharmonicity = std::round(reading.pluck.inharmonicity * 1e9) / 1e9;
        reading.pluck.glide_cents = std::round(reading.pluck.glide_cents * 1e3) / 1e3;
    }
    return readings;
}

std::vector<Reading> packed_and_unpacked(const std::vector<Reading>& readings)
{
    auto restored = without_partials(readings);
    db::unpack_partials(db::partials_encoding, db::pack_partials(readings), restored);
    return restored;
}

double cents_between(double a_hz, double b_hz)
{
    return std::abs(interval(Hertz{a_hz}, Hertz{b_hz}).value());
}

/// Encoding 1 written from its description, one number after the other.
struct FirstPacker {
    std::vector<std::uint8_t> out;

    void number(unsigned value)
    {
        for (; value >= 128; value /= 128) out.push_back(static_cast<std::uint8_t>(128 + value % 128));
        out.push_back(static_cast<std::uint8_t>(value));
    }
    void folded(int value) { number(static_cast<unsigned>(value >= 0 ? 2 * value : -2 * value - 1)); }
    void log_code(double value, double smallest, double steps)
    {
        out.push_back(value > 0.0
                          ? static_cast<std::uint8_t>(1 + std::lround(steps * std::log10(value / smallest)))
                          : 0);
    }
    void reading(const PluckMeasurement& pluck)
    {
        number(static_cast<unsigned>(pluck.partials.size()));
        int before = 0;
        for (const Partial& partial : pluck.partials) {
            const double n = partial.number, B = std::round(pluck.inharmonicity * 1e9) / 1e9;
            const double stiff_hz = n * pluck.frequency_hz * std::sqrt((1 + B * n * n) / (1 + B));
            folded(partial.number - before);
            folded(static_cast<int>(std::lround(1200e3 * std::log2(partial.frequency_hz / stiff_hz))));
            log_code(partial.uncertainty_cents, 1e-5, 32.0);
            out.push_back(static_cast<std::uint8_t>(std::lround(2.0 * (partial.level_db + 127.0))));
            log_code(partial.decay_s, 1e-3, 48.0);
            before = partial.number;
        }
    }
};

} // namespace

TEST_CASE("pack_partials: come back to the resolution that is promised", "[db][property]")
{
    const auto readings = whole_check(make_layout({}).value(), 11).readings;
    const auto restored = packed_and_unpacked(readings);
    double frequency = 0.0, glide = 0.0; // in standard deviations of the noise
    double noise = 0.0, uncertainty = 0.0, level_db = 0.0, decay = 0.0, glide_uncertainty = 0.0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const auto& a = readings[i].pluck;
        const auto& b = restored[i].pluck;
        REQUIRE(b.partials.size() == a.partials.size());
        glide_uncertainty = std::max(glide_uncertainty,
                                     std::abs(b.glide_uncertainty_cents / a.glide_uncertainty_cents - 1.0));
        for (std::size_t k = 0; k < a.partials.size(); ++k) {
            const Partial& before = a.partials[k];
            const Partial& after = b.partials[k];
            CHECK(after.number == before.number);
            frequency = std::max(frequency,
                                 cents_between(before.frequency_hz, after.frequency_hz) / after.noise_cents);
            glide = std::max(glide, std::abs(after.glide_cents - before.glide_cents) / after.noise_cents);
            noise = std::max(noise, std::abs(after.noise_cents / before.noise_cents - 1.0));
            uncertainty =
                std::max(uncertainty, std::abs(after.uncertainty_cents / before.uncertainty_cents - 1.0));
            level_db = std::max(level_db, std::abs(after.level_db - before.level_db));
            decay = std::max(decay, std::abs(after.decay_s / before.decay_s - 1.0));
        }
    }
    CHECK_THAT(frequency, WithinAbs(0.0, 0.1667));         // half of a third of the noise as kept
    CHECK_THAT(glide, WithinAbs(0.0, 0.2501));             // half of a half
    CHECK_THAT(noise, WithinAbs(0.0, 0.155));              // half of the step of 10^(1/8)
    CHECK_THAT(uncertainty, WithinAbs(0.0, 0.16));         // as above, and what is left out as negligible
    CHECK_THAT(level_db, WithinAbs(0.0, 0.6251));          // half of the step of 1.25 dB
    CHECK_THAT(decay, WithinAbs(0.0, 0.06));               // half of the step of 10^(1/20)
    CHECK_THAT(glide_uncertainty, WithinAbs(0.0, 0.0243)); // half of the step of 10^(1/48)
}

TEST_CASE("pack_partials: a step measured from stored readings is the one measured from fresh ones",
          "[db][property]")
{
    CheckResult fresh = whole_check(make_layout({}).value(), 14);
    for (Reading& reading : fresh.readings) reading.pluck.doubts.clear();
    CheckResult stored = fresh;
    stored.readings = packed_and_unpacked(fresh.readings);
    measure_steps(make_layout({}).value(), fresh);
    measure_steps(make_layout({}).value(), stored);
    REQUIRE(stored.steps.size() == fresh.steps.size());
    REQUIRE(fresh.steps.size() == 90);
    double worst = 0.0, worst_uncertainty = 0.0, sum2 = 0.0;
    for (std::size_t i = 0; i < fresh.steps.size(); ++i) {
        const auto& a = fresh.steps[i];
        const auto& b = stored.steps[i];
        const double moved = (b.error_cents - a.error_cents) / a.uncertainty_cents;
        worst = std::max(worst, std::abs(moved));
        sum2 += moved * moved;
        worst_uncertainty =
            std::max(worst_uncertainty, std::abs(b.uncertainty_cents / a.uncertainty_cents - 1.0));
    }
    CAPTURE(std::sqrt(sum2 / 90.0), worst, worst_uncertainty);
    CHECK(std::sqrt(sum2 / 90.0) < 0.25); // promised a quarter: adds 3 % to the uncertainty
    CHECK(worst < 1.0); // promised: levels are kept to 0.6 dB, from which on plucks count as different
    CHECK(worst_uncertainty < 0.4); // promised, for the same reason
}

TEST_CASE("pack_partials: takes two thirds of what encoding 1 took, with more in it", "[db]")
{
    const auto readings = whole_check(make_layout({}).value(), 12).readings;
    FirstPacker first;
    for (const Reading& reading : readings) first.reading(reading.pluck);
    CAPTURE(db::pack_partials(readings).size(), first.out.size());
    CHECK(10 * db::pack_partials(readings).size() < 7 * first.out.size());
}

TEST_CASE("pack_partials: strange partials survive", "[db]")
{
    Reading reading;
    reading.pluck.frequency_hz = 440.0;
    reading.pluck.partials = {{5, 4000.0, 0.0, 0.0, 3.0, 0.0, 0.0},
                              {1, 20.0, 1e4, 2.0, -300.0, 1e5, -70.0},
                              {400, 1e5, 3e-7, 3e-7, 900.0, 1e-9, 4.0}};
    const auto restored = packed_and_unpacked({reading});
    REQUIRE(restored[0].pluck.partials.size() == 3);
    CHECK(restored[0].pluck.partials[0].number == 5);
    CHECK(restored[0].pluck.partials[0].uncertainty_cents == 0.0);
    CHECK(restored[0].pluck.partials[1].number == 1);
    CHECK(restored[0].pluck.partials[2].number == 400);
    // Half of the coarsest step, 0.25 cent.
    CHECK(cents_between(restored[0].pluck.partials[1].frequency_hz, 20.0) < 0.1251);
    CHECK(cents_between(restored[0].pluck.partials[2].frequency_hz, 1e5) < 0.1251);
    CHECK_THAT(restored[0].pluck.partials[1].glide_cents, WithinAbs(-70.0, 0.1251)); // as above
}

TEST_CASE("unpack_partials: bytes that do not fit are refused", "[db]")
{
    const auto readings = whole_check(make_layout({}).value(), 13).readings;
    FirstPacker first;
    for (const Reading& reading : readings) first.reading(reading.pluck);
    const auto encoding = GENERATE(1, 2);
    auto packed = encoding == 1 ? first.out : db::pack_partials(readings);
    auto fresh = without_partials(readings);
    const auto shorter = std::span{packed}.first(packed.size() - 1);
    CHECK_THROWS_AS(db::unpack_partials(encoding, shorter, fresh), db::LedgerFailure);
    packed.push_back(0);
    fresh = without_partials(readings);
    CHECK_THROWS_AS(db::unpack_partials(encoding, packed, fresh), db::LedgerFailure);
    CHECK_THROWS_AS(db::unpack_partials(3, packed, fresh), db::LedgerFailure);
}

TEST_CASE("unpack_partials: any bytes give partials or a refusal", "[db][property]")
{
    const auto readings = whole_check(make_layout({}).value(), 15).readings;
    const auto packed = db::pack_partials(readings);
    std::mt19937 random{15};
    int refused = 0;
    for (int round = 0; round < 300; ++round) {
        auto damaged = packed;
        for (int i = 0; i < 3; ++i) damaged[random() % damaged.size()] = static_cast<std::uint8_t>(random());
        auto fresh = without_partials(readings);
        try {
            db::unpack_partials(2, damaged, fresh);
        } catch (const db::LedgerFailure& failure) {
            CHECK(failure.error().code == ErrorCode::corrupt);
            ++refused;
        }
    }
    CHECK(refused > 0);
}

TEST_CASE("unpack_partials: encoding 1 is read as it is described", "[db][twin]")
{
    const auto readings = whole_check(make_layout({}).value(), 16).readings;
    FirstPacker first;
    for (const Reading& reading : readings) first.reading(reading.pluck);
    auto restored = without_partials(readings);
    db::unpack_partials(1, first.out, restored);
    for (std::size_t i = 0; i < readings.size(); ++i) {
        REQUIRE(restored[i].pluck.partials.size() == 10);
        for (std::size_t k = 0; k < 10; ++k) {
            const Partial& before = readings[i].pluck.partials[k];
            const Partial& after = restored[i].pluck.partials[k];
            CHECK(after.number == before.number);
            CHECK(cents_between(before.frequency_hz, after.frequency_hz) < 0.00051); // half of 0.001 cent
            CHECK(std::abs(after.uncertainty_cents / before.uncertainty_cents - 1.0) <
                  0.04);                                                   // half of the step of 10^(1/32)
            CHECK(std::abs(after.level_db - before.level_db) < 0.2501);    // half of 0.5 dB
            CHECK(std::abs(after.decay_s / before.decay_s - 1.0) < 0.025); // half of 10^(1/48)
        }
    }
}
