// SPDX-License-Identifier: MIT
#include "synth/synthetic_disturbance.hpp"
#include "synth/synthetic_noise.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <complex>
#include <numbers>
#include <vector>

using namespace harpkeep;

namespace {

constexpr double rate = 48000.0;

double rms_of(const std::vector<double>& samples)
{
    double power = 0.0;
    for (const double sample : samples) power += sample * sample;
    return std::sqrt(power / static_cast<double>(samples.size()));
}

/// Power at a frequency, averaged over Hann-windowed stretches of 4096 samples.
double power_at(const std::vector<double>& samples, double frequency_hz)
{
    constexpr std::size_t length = 4096;
    double power = 0.0;
    std::size_t stretches = 0;
    for (std::size_t first = 0; first + length <= samples.size(); first += length, ++stretches) {
        std::complex<double> sum;
        for (std::size_t n = 0; n < length; ++n) {
            const double angle = 2.0 * std::numbers::pi * static_cast<double>(n);
            sum += samples[first + n] * (1.0 - std::cos(angle / length)) *
                   std::polar(1.0, -angle * frequency_hz / rate);
        }
        power += std::norm(sum);
    }
    return power / static_cast<double>(stretches);
}

} // namespace

TEST_CASE("RandomSource: gives the numbers of the standard's engine", "[synth][reference]")
{
    // ISO C++ [rand.predef]: the 10000th output of a default std::mt19937_64 (seed 5489) is
    // 9981545732273789042.
    RandomSource random(5489);
    for (int i = 1; i < 10000; ++i) static_cast<void>(random.uniform());
    CHECK(random.uniform() == static_cast<double>(9981545732273789042ULL >> 11) * 0x1p-53);
}

TEST_CASE("RandomSource: normal numbers have the moments of the normal law", "[synth][property]")
{
    RandomSource random(7);
    constexpr int count = 200000;
    double sum = 0.0, squares = 0.0, fourths = 0.0;
    for (int i = 0; i < count; ++i) {
        const double x = random.normal();
        sum += x;
        squares += x * x;
        fourths += x * x * x * x;
    }
    // Five standard errors: sqrt(1 / n), sqrt(2 / n), sqrt(96 / n).
    CHECK(std::abs(sum / count) < 0.0112);
    CHECK(std::abs(squares / count - 1.0) < 0.0158);
    CHECK(std::abs(fourths / count - 3.0) < 0.11);
}

TEST_CASE("noise: has exactly the rms that was asked for", "[synth]")
{
    RandomSource random(3);
    std::vector<double> white(48000, 0.0), pink(48000, 0.0);
    add_white_noise(white, 0.01, random);
    add_pink_noise(pink, rate, 0.01, random);
    CHECK(rms_of(white) == Approx(0.01).epsilon(1e-12)); // rounding
    CHECK(rms_of(pink) == Approx(0.01).epsilon(1e-12));
}

TEST_CASE("noise: pink falls by 3 dB an octave, white not at all", "[synth]")
{
    RandomSource random(4);
    std::vector<double> white(30 * 48000, 0.0), pink(30 * 48000, 0.0);
    add_white_noise(white, 0.01, random);
    add_pink_noise(pink, rate, 0.01, random);
    // A band is averaged over a few frequencies to hold the scatter down: 350 stretches, 4 frequencies, 3 %
    // or 0.1 dB.
    const auto level_db = [](const std::vector<double>& samples, double centre_hz) {
        double power = 0.0;
        for (const double factor : {0.75, 0.9, 1.1, 1.25})
            power += power_at(samples, centre_hz * factor) * factor;
        return 10.0 * std::log10(power);
    };
    const double pink_at_125_db = level_db(pink, 125.0), white_at_125_db = level_db(white, 125.0);
    for (int octave = 1; octave <= 6; ++octave) {
        CAPTURE(octave);
        const double centre_hz = 125.0 * std::exp2(octave);
        CHECK(std::abs(level_db(pink, centre_hz) - pink_at_125_db + 3.0103 * octave) <
              1.0);                                                          // ripple of the sections
        CHECK(std::abs(level_db(white, centre_hz) - white_at_125_db) < 0.5); // four standard errors
    }
}

TEST_CASE("add_hum: lies on the mains frequency and its odd harmonics", "[synth]")
{
    RandomSource random(5);
    std::vector<double> samples(10 * 48000, 0.0);
    add_hum(samples, rate, {.frequency_hz = 60.0, .level_dbfs = -40.0}, random);
    CHECK(rms_of(samples) == Approx(0.01).epsilon(1e-3)); // ten seconds hold a whole number of periods
    const double at_60 = power_at(samples, 60.0);
    CHECK(power_at(samples, 180.0) == Approx(at_60 / 9.0).epsilon(0.05)); // 1/k; leakage between the lines
    CHECK(power_at(samples, 150.0) < 1e-3 * at_60);
}

TEST_CASE("disturbances: start where they should, end, and have their level", "[synth]")
{
    RandomSource random(6);
    const double start_s = 0.5;
    const auto check = [&](const std::vector<double>& mix, double duration_s, double level_dbfs) {
        double before = 0.0, inside = 0.0, after = 0.0;
        for (std::size_t n = 0; n < mix.size(); ++n) {
            const double t = static_cast<double>(n) / rate;
            (t < start_s ? before : t < start_s + duration_s ? inside : after) += mix[n] * mix[n];
        }
        CHECK(before == 0.0);
        CHECK(after == 0.0);
        CHECK(10.0 * std::log10(inside / (duration_s * rate)) ==
              Approx(level_dbfs).margin(0.01)); // one sample in length
    };
    std::vector<double> knock(96000, 0.0), cough(96000, 0.0), speech(4 * 48000, 0.0);
    add_knock(knock, rate, start_s, -30.0, random);
    add_cough(cough, rate, start_s, -30.0, random);
    add_speech(speech, rate, start_s, 2.0, -30.0, random);
    check(knock, 0.15, -30.0);
    check(cough, 0.5, -30.0);
    check(speech, 2.0, -30.0);
}
