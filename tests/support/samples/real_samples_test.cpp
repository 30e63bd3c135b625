// SPDX-License-Identifier: MIT
#include "tests/support/real_samples.hpp"

#include "tests/support/step_triple.hpp"
#include "tests/support/tone.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

using namespace harpkeep::tests;

TEST_CASE("real_samples: every set is there, with its notes and its licence", "[samples]")
{
    std::map<std::string, int> counts;
    for (const RealSample& sample : real_samples()) {
        ++counts[sample.set];
        CHECK_FALSE(sample.licence.empty());
        CHECK(sample.nominal_hz > 40.0);
        CHECK(sample.nominal_hz < 3100.0);
    }
    CHECK(counts == std::map<std::string, int>{
                        {"fluid", 14}, {"freepats", 14}, {"mp3", 23}, {"musescore", 14}, {"wav", 23}});
}

TEST_CASE("real_samples: every recording can be decoded and holds the note it is named after", "[samples]")
{
    for (const RealSample& sample : real_samples()) {
        CAPTURE(sample.path);
        const MonoSound sound = load(sample.path);
        const double duration_s = static_cast<double>(sound.samples.size()) / sound.sample_rate_hz;
        CHECK(duration_s > 0.15);
        // Of a grid of frequencies 20 cents apart and 400 wide, the loudest among the first eight partials
        // lies within 60 cents of a multiple of the nominal frequency: 31 cents off, stiffness, half the
        // grid.
        const double stretch_s = std::min(0.3, 0.7 * duration_s);
        double best_cents = 0.0, best_level = 0.0;
        for (int partial = 1; partial <= 8 && partial * sample.nominal_hz < 0.45 * sound.sample_rate_hz;
             ++partial)
            for (double cents = -200.0; cents <= 200.0; cents += 20.0) {
                const double frequency_hz = partial * sample.nominal_hz * std::exp2(cents / 1200.0);
                const double level =
                    std::abs(phasor(sound.samples, sound.sample_rate_hz, frequency_hz, 0.03, stretch_s));
                if (level > best_level) {
                    best_level = level;
                    best_cents = cents;
                }
            }
        CHECK(best_level > 1e-4); // -80 dB: there is sound
        CHECK(std::abs(best_cents) <= 60.0);
    }
}

TEST_CASE("real_step_triples: the positions are as far apart as they say", "[samples]")
{
    const auto triples = real_step_triples({"fluid"}, 1);
    REQUIRE(triples.size() == 14);
    for (const StepTriple& triple : triples) {
        CHECK(std::abs(triple.lower_error_cents) <= 12.0);
        const auto length = [](const std::vector<double>& samples) {
            return static_cast<double>(samples.size());
        };
        const double size_cents = 1200.0 * std::log2(length(triple.flat) / length(triple.natural));
        CHECK(size_cents ==
              Approx(100.0 + triple.lower_error_cents).margin(0.4)); // a sample more or less in 0.2 s
    }
}

TEST_CASE("in_a_room: each position gets noise of its own at the level that was asked for", "[samples]")
{
    const std::vector<double> pluck(44100, 0.1); // rms 0.1
    const auto a = in_a_room(pluck, 44100.0, RoomNoise{.snr_db = 20.0}, 2.0, 1);
    const auto b = in_a_room(pluck, 44100.0, RoomNoise{.snr_db = 20.0}, 2.0, 2);
    REQUIRE(a.size() == 3 * 44100);
    CHECK(a != b);
    double power = 0.0;
    for (std::size_t n = 0; n < 88200; ++n) power += a[n] * a[n];
    // Noise of 0.01 and hum 6 dB below it: their powers add up to 1.25; two seconds of pink noise scatter by
    // 1 dB.
    CHECK(10.0 * std::log10(power / 88200.0) == Approx(-40.0 + 0.97).margin(1.5));
}
