// SPDX-License-Identifier: MIT
#include "signal/cramer_rao.hpp"
#include "tests/src/measure/tone_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numbers>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

ToneCase clean_string(double f1_hz, int partials)
{
    ToneCase tone{.string = generic_string(f1_hz)};
    tone.string.partial_count = partials;
    return tone;
}

/// The bound for what measure_tone looks at: the sound from 8 ms after the onset to the end of its fit.
double bound_cents(const ToneCase& tone, double noise_rms)
{
    DampedStiffString string{tone.string.ideal_frequency_hz, tone.string.inharmonicity, {}};
    for (const auto& c : components_of(tone.string, tone.pluck, tone.rate_hz))
        string.partials.push_back({.number = static_cast<int>(string.partials.size()) + 1,
                                   .amplitude = c.amplitude,
                                   .decay_rate = c.decay_per_s,
                                   .phase_rad = c.phase_rad});
    const auto bound = cramer_rao_bound(string, {.sample_rate_hz = tone.rate_hz,
                                                 .from_s = 0.0,
                                                 .to_s = tone.until_s - tone.onset_s,
                                                 .noise_rms = noise_rms});
    REQUIRE(bound);
    return cents_per_neper * bound->first_partial_sd_hz / partial_frequency_hz(tone.string, 1);
}

struct Spread {
    double rms_cents = 0.0, bias_cents = 0.0, bound = 0.0;
};

Spread spread_of(double f1_hz, double snr_db, int runs)
{
    Spread spread;
    for (int i = 0; i < runs; ++i) {
        ToneCase tone = clean_string(f1_hz, 8);
        tone.snr_db = snr_db;
        tone.seed = static_cast<std::uint64_t>(i + 1);
        tone.until_s = tone.onset_s + 1.5;
        const auto sound = sound_of(tone);
        const auto pluck = measured(sound.samples, tone);
        REQUIRE(pluck);
        const double error = off_cents(*pluck, partial_frequency_hz(tone.string, 1));
        spread.rms_cents += error * error / runs;
        spread.bias_cents += error / runs;
        if (i == 0) spread.bound = bound_cents(tone, sound.noise_rms);
    }
    spread.rms_cents = std::sqrt(spread.rms_cents);
    return spread;
}

} // namespace

TEST_CASE("measure_tone: on clean strings it comes within 1.5 times the Cramer-Rao bound", "[reference]")
{
    // The bound: src/signal/cramer_rao.hpp, checked there against published closed forms.
    constexpr int runs = 16;
    for (const double f1_hz : {27.5, 110.0, 440.0, 1760.0, 4200.0})
        for (const double snr_db : {10.0, 20.0, 40.0, 60.0}) {
            const Spread spread = spread_of(f1_hz, snr_db, runs);
            INFO(f1_hz << " Hz, " << snr_db << " dB: rms " << spread.rms_cents << ", bias "
                       << spread.bias_cents << ", bound " << spread.bound << " cents");
            // 1.5 times, 3 standard deviations of the rms of 16 runs, and the rounding of 32-bit samples.
            CHECK(spread.rms_cents < 1.5 * spread.bound * (1.0 + 3.0 / std::sqrt(2.0 * runs)) + 2e-4);
            if (snr_db >= 40.0)
                CHECK(std::abs(spread.bias_cents) < 0.01 + 3.0 * spread.rms_cents / std::sqrt(1.0 * runs));
        }
}

TEST_CASE("measure_tone: a ratio of pitch shifts the reading by exactly that many cents", "[property]")
{
    // The same string at another speed: all times shrink with the ratio, the noise is none.
    ToneCase tone = clean_string(261.6, 20);
    const auto plain = measured(tone);
    REQUIRE(plain);
    for (const double cents : {37.0, -61.0}) {
        const double ratio = std::exp2(cents / 1200.0);
        ToneCase other = tone;
        other.string.ideal_frequency_hz *= ratio;
        other.string.decay_t60_s /= ratio;
        const auto moved = measured(other);
        REQUIRE(moved);
        CHECK(std::abs(cents_per_neper * std::log(moved->frequency_hz / plain->frequency_hz) - cents) <
              1e-3); // rounding of 32-bit samples and of windows to whole samples
    }
}

TEST_CASE("measure_tone: time, gain, polarity and sample rate do not matter", "[property]")
{
    ToneCase tone = clean_string(196.0, 30);
    const auto plain = measured(tone);
    REQUIRE(plain);
    const auto change = [&](const ToneCase& other, double gain) {
        auto sound = sound_of(other);
        for (double& sample : sound.samples) sample *= gain;
        const auto pluck = measured(sound.samples, other);
        REQUIRE(pluck);
        return std::abs(off_cents(*pluck, plain->frequency_hz));
    };
    CHECK(change(tone, 0.125) < 1e-9); // a power of two: nothing is rounded
    CHECK(change(tone, -1.0) < 1e-9);
    CHECK(change(tone, 0.3) < 1e-4); // rounding of 32-bit samples
    ToneCase later = tone;
    later.onset_s = 0.7137, later.until_s = 2.7137;
    CHECK(change(later, 1.0) < 1e-3); // the windows lie elsewhere by part of a sample
    for (const double rate_hz : {44100.0, 96000.0}) {
        ToneCase other = tone;
        other.rate_hz = rate_hz;
        CHECK(change(other, 1.0) < 2e-3); // hops and windows of other lengths
    }
}

TEST_CASE("measure_tone: a missing fundamental is read off the other partials", "[property]")
{
    ToneCase tone = clean_string(41.2, 40); // octave 6
    tone.string.fundamental_db = -200.0;
    tone.snr_db = 40.0;
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::abs(off_cents(*pluck, partial_frequency_hz(tone.string, 1))) <
          0.1); // a fifth of the step's goal
    for (const auto& partial : pluck->partials) CHECK(partial.number > 1);
}

TEST_CASE("measure_tone: a string of octave 0 that dies in 0.15 s is measured", "[property]")
{
    ToneCase tone = clean_string(3136.0, 6);
    tone.string.decay_t60_s = 0.15;
    tone.snr_db = 30.0;
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::abs(off_cents(*pluck, partial_frequency_hz(tone.string, 1))) < 0.5); // the step's 95 % goal
}

TEST_CASE("measure_tone: mains hum on a partial is no pitch", "[property]")
{
    ToneCase tone = clean_string(50.06, 40); // 2 cents above the hum
    tone.snr_db = 40.0;
    tone.disturb = [&](std::vector<double>& samples, RandomSource& random) {
        add_hum(samples, 48000.0, {.frequency_hz = 50.0, .level_dbfs = -50.0}, random);
    };
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::abs(off_cents(*pluck, partial_frequency_hz(tone.string, 1))) < 0.15); // the step's median goal
}

TEST_CASE("measure_tone: the neighbour that still rings does not pull", "[property]")
{
    ToneCase tone = clean_string(293.7, 20);
    tone.snr_db = 40.0;
    tone.disturb = [](std::vector<double>& samples, RandomSource&) {
        SyntheticPluck before{.glide_cents = 1.0, .phase_seed = 9};
        std::vector<double> other(samples.size() + 48000);
        add_pluck(other, 48000.0, 0.0, generic_string(261.6), before); // 1.5 s before this one
        for (std::size_t n = 0; n < samples.size(); ++n) samples[n] += other[n + 48000];
    };
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::abs(off_cents(*pluck, partial_frequency_hz(tone.string, 1))) <
          0.05); // a third of the median goal
}

TEST_CASE("measure_tone: the settled pitch is reported, the glide beside it", "[property]")
{
    ToneCase tone = clean_string(196.0, 40);
    tone.pluck.glide_cents = 1.5;
    tone.snr_db = 40.0;
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::abs(off_cents(*pluck, partial_frequency_hz(tone.string, 1))) <
          0.05);                                     // a third of the median goal
    CHECK(std::abs(pluck->glide_cents - 1.5) < 0.3); // known to a fifth
}

TEST_CASE("measure_tone: an overdriven recording is doubted as clipped", "[property]")
{
    ToneCase tone = clean_string(261.6, 20);
    auto sound = sound_of(tone);
    const auto plain = measured(sound.samples, tone);
    REQUIRE(plain);
    CHECK(plain->trusted());
    const double highest = *std::max_element(sound.samples.begin(), sound.samples.end());
    for (double& sample : sound.samples) sample = std::clamp(sample, -0.5 * highest, 0.5 * highest);
    const auto clipped = measured(sound.samples, tone);
    REQUIRE(clipped);
    CHECK(std::count(clipped->doubts.begin(), clipped->doubts.end(), Doubt::clipped) == 1);
}

TEST_CASE("measure_tone: a false string beats, and its beat rate is told", "[property]")
{
    ToneCase tone = clean_string(392.0, 12);
    tone.pluck.second_polarisation =
        SecondPolarisation{.split_cents = 8.0, .level_db = -3.0, .decay_ratio = 1.0};
    tone.snr_db = 30.0;
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::count(pluck->doubts.begin(), pluck->doubts.end(), Doubt::beating) == 1);
    REQUIRE(pluck->beat_rate_hz);
    // 8 cents of 392 Hz are 1.816 Hz; the strongest partial is one of the lowest.
    const double partial = std::round(*pluck->beat_rate_hz / 1.816);
    CHECK(partial >= 1.0);
    CHECK(std::abs(*pluck->beat_rate_hz / (1.816 * partial) - 1.0) <
          0.2); // a quarter of 1 / length in 2.5 decays
}

TEST_CASE("measure_tone: the same string still sounding as loud is doubted as disturbed", "[property]")
{
    ToneCase tone = clean_string(261.6, 20);
    tone.snr_db = 40.0;
    tone.disturb = [&](std::vector<double>& samples, RandomSource&) {
        SyntheticPluck before{.level_dbfs = -12.0, .glide_cents = 0.0, .phase_seed = 9};
        add_pluck(samples, 48000.0, 0.1, generic_string(262.2), before);
    };
    const auto pluck = measured(tone);
    REQUIRE(pluck);
    CHECK(std::count(pluck->doubts.begin(), pluck->doubts.end(), Doubt::disturbed) == 1);
}
