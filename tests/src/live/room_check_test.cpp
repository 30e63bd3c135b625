// SPDX-License-Identifier: MIT
#include "live/room_check.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

using namespace harpkeep;

namespace {

constexpr double rate_hz = 48000.0;

/// Three seconds of white noise of a level, at 48 kHz.
std::vector<float> noise(double level_db, unsigned seed = 1)
{
    std::mt19937 random{seed};
    std::normal_distribution<double> normal{0.0, std::pow(10.0, level_db / 20.0)};
    std::vector<float> samples(3 * 48000);
    for (float& sample : samples) sample = static_cast<float>(normal(random));
    return samples;
}

void add_sine(std::vector<float>& samples, double frequency_hz, double level_db, double phase = 0.3)
{
    const double amplitude = std::numbers::sqrt2 * std::pow(10.0, level_db / 20.0);
    for (std::size_t n = 0; n < samples.size(); ++n)
        samples[n] += static_cast<float>(
            amplitude *
            std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(n) / rate_hz + phase));
}

RoomReport report_on(const std::vector<float>& samples)
{
    RoomCheck room{Hertz{rate_hz}};
    room.push(samples);
    return room.report();
}

bool has(const RoomReport& report, RoomProblem problem)
{
    return std::find(report.problems.begin(), report.problems.end(), problem) != report.problems.end();
}

} // namespace

TEST_CASE("room check: a quiet room has no problem", "[live]")
{
    const auto report = report_on(noise(-70.0));
    CHECK(report.problems.empty());
    // thirty blocks of a tenth of a second scatter by 0.1 dB
    CHECK(report.noise->value() == Approx(-70.0).margin(0.5));
    CHECK_FALSE(report.hum);
}

TEST_CASE("room check: a loud room is named", "[live]")
{
    CHECK(has(report_on(noise(-40.0)), RoomProblem::noisy));
}

TEST_CASE("room check: a door that slams once does not make the room loud", "[live]")
{
    auto samples = noise(-70.0);
    for (std::size_t n = 60000; n < 70000; ++n) samples[n] *= 300.0F;
    CHECK_FALSE(has(report_on(samples), RoomProblem::noisy));
}

TEST_CASE("room check: hum is told from noise, and its mains by frequency", "[live]")
{
    const double mains_hz = GENERATE(50.0, 60.0);
    auto samples = noise(-65.0);
    add_sine(samples, mains_hz, -55.0);
    add_sine(samples, 2.0 * mains_hz, -58.0);
    const auto report = report_on(samples);
    REQUIRE(has(report, RoomProblem::hum));
    CHECK(report.mains->value() == mains_hz);
    // both lines together, less 0.6 dB that the high pass takes from 50 Hz
    CHECK(report.hum->value() == Approx(-53.2).margin(0.8));
}

TEST_CASE("room check: a string that sounds meanwhile is no hum", "[live]")
{
    auto samples = noise(-65.0);
    add_sine(samples, 49.0, -40.0); // 6G
    add_sine(samples, 61.7, -40.0); // 6B
    CHECK_FALSE(has(report_on(samples), RoomProblem::hum));
}

TEST_CASE("room check: a signal that is cut off is clipping, a loud one is not", "[live]")
{
    auto loud = noise(-70.0);
    add_sine(loud, 440.0, -3.5);
    CHECK_FALSE(has(report_on(loud), RoomProblem::clipping));
    auto cut = noise(-70.0);
    add_sine(cut, 440.0, 3.0);
    for (float& sample : cut) sample = std::clamp(sample, -1.0F, 1.0F);
    CHECK(has(report_on(cut), RoomProblem::clipping));
}

TEST_CASE("room check: exact zeros are a dead source", "[live]")
{
    CHECK(has(report_on(std::vector<float>(96000)), RoomProblem::dead_source));
}

TEST_CASE("room check: a constant voltage is named and does not count as noise", "[live]")
{
    auto samples = noise(-70.0);
    for (float& sample : samples) sample += 0.05F;
    const auto report = report_on(samples);
    CHECK(has(report, RoomProblem::offset));
    CHECK_FALSE(has(report, RoomProblem::noisy));
}

TEST_CASE("room check: plucks must stand out of the noise", "[live]")
{
    const double pluck_db = GENERATE(-45.0, -12.0);
    RoomCheck room{Hertz{rate_hz}};
    room.push(noise(-70.0));
    room.expect_plucks();
    auto pluck = noise(-70.0, 2);
    add_sine(pluck, 440.0, pluck_db - 3.01); // its peak
    room.push(pluck);
    CHECK(has(room.report(), RoomProblem::too_quiet) == (pluck_db < -40.0));
    CHECK(room.report().noise->value() == Approx(-70.0).margin(0.5)); // not touched by the plucks
}
