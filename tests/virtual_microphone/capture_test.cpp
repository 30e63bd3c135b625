// SPDX-License-Identifier: MIT
#include "scenario.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <thread>

using harpkeep::test::number_of;
using harpkeep::test::numbered_samples;
using harpkeep::test::Scenario;

namespace {

/// Where the recorded samples stop following each other in the file, as (position in the recording, jump).
struct Jump {
    std::size_t at;
    std::size_t missing;
};

std::vector<Jump> jumps_of(const std::vector<float>& samples)
{
    std::vector<Jump> jumps;
    for (std::size_t k = 1; k < samples.size(); ++k)
        if (number_of(samples[k]) != number_of(samples[k - 1]) + 1)
            jumps.push_back({k, number_of(samples[k]) - number_of(samples[k - 1]) - 1});
    return jumps;
}

} // namespace

TEST_CASE("capture: every sample of the device arrives, bit for bit, at its own rate", "[audio][twin]")
{
    const int rate = GENERATE(44100, 48000, 96000);
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(1'000'000));
    scenario.add_microphone("harp", fmt::format("infile \"{}\" rate {} speed 5", file.string(), rate));

    const auto run = scenario.probe(fmt::format("--device harp --frames 300000 --speed 5 --out '{}'",
                                                scenario.path("heard.raw").string()));

    REQUIRE(run.exit_code == 0);
    const auto heard = scenario.read_samples("heard.raw");
    REQUIRE(heard.size() >= 300'000);
    CHECK(number_of(heard.front()) == 0);
    CHECK(jumps_of(heard).empty());
    CHECK(run.named("end").front().at("rate_hz") == rate);
}

TEST_CASE("capture: the integer formats of sound cards arrive exactly", "[audio][twin]")
{
    const std::string format = GENERATE(as<std::string>{}, "s24_3", "s32");
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(200'000));
    scenario.add_microphone("harp", fmt::format("infile \"{}\" format {} speed 5", file.string(), format));

    const auto run = scenario.probe(fmt::format("--device harp --frames 100000 --speed 5 --out '{}'",
                                                scenario.path("heard.raw").string()));

    REQUIRE(run.exit_code == 0);
    CHECK(jumps_of(scenario.read_samples("heard.raw")).empty());
}

TEST_CASE("capture: an overrun is counted from the clock of the driver", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(400'000));
    scenario.add_microphone("harp", fmt::format("infile \"{}\" overrun 0.7 lossless 0", file.string()));

    const auto run = scenario.probe(
        fmt::format("--device harp --frames 72000 --out '{}'", scenario.path("heard.raw").string()));

    REQUIRE(run.exit_code == 0);
    const auto jumps = jumps_of(scenario.read_samples("heard.raw"));
    const auto gaps = run.named("gap");
    REQUIRE(jumps.size() >= 1); // more on a machine that is too busy to read in time
    REQUIRE(gaps.size() == jumps.size());
    for (std::size_t k = 0; k < gaps.size(); ++k) {
        CHECK(gaps[k].at("heard_frames") == jumps[k].at);
        CHECK(gaps[k].at("counted") == true);
        // the time stamps of two blocks jitter by up to a frame each
        CHECK(gaps[k].at("lost_frames").get<double>() == Approx(jumps[k].missing).margin(2.0));
    }
}

TEST_CASE("capture: what a full ring loses is counted as well", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(400'000));
    scenario.add_microphone("harp", fmt::format("infile \"{}\"", file.string()));

    // nobody drains for a second, the ring holds half of one
    const auto run =
        scenario.probe(fmt::format("--device harp --frames 60000 --ring 0.5 --sleep 1.0 --out '{}'",
                                   scenario.path("heard.raw").string()));

    REQUIRE(run.exit_code == 0);
    const auto jumps = jumps_of(scenario.read_samples("heard.raw"));
    REQUIRE(jumps.size() == 1);
    REQUIRE(run.named("gap").size() == 1);
    // the time stamps of two blocks jitter by up to a frame each
    CHECK(run.named("gap").front().at("lost_frames").get<double>() ==
          Approx(jumps.front().missing).margin(2.0));
}

TEST_CASE("capture: an unplugged device is noticed, everything before it is kept", "[audio]")
{
    const int mode = GENERATE(0, 1);
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(400'000));
    scenario.add_microphone("harp",
                            fmt::format("infile \"{}\" unplug 0.5 unplugmode {}", file.string(), mode));
    scenario.add_microphone("spare", fmt::format("infile \"{}\"", file.string()));

    const auto run = scenario.probe(fmt::format("--device harp --until lost --then spare --out '{}'",
                                                scenario.path("heard.raw").string()));

    REQUIRE(run.exit_code == 0);
    REQUIRE(run.named("lost").size() == 1);
    // half a second at 48 kHz, less the part of a period that the card had not handed over
    CHECK(run.named("lost").front().at("heard_frames").get<double>() == Approx(24000.0).margin(2400.0));
    // The second device opens, whether the first one hangs or not.
    REQUIRE(run.named("end").size() == 2);
    CHECK(run.named("end").back().at("frames").get<int>() >= 4800);
    // Mode 1 makes PortAudio print two million lines a second; a tenth of a second of it may pass.
    CHECK(run.error_output_bytes < 100'000'000);
}

TEST_CASE("capture: a device that stands still is noticed within a second and a half", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(400'000));
    scenario.add_microphone("harp", fmt::format("infile \"{}\" stall 0.5", file.string()));

    const auto start = std::chrono::steady_clock::now();
    const auto run = scenario.probe("--device harp --until lost");
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;

    REQUIRE(run.exit_code == 0);
    CHECK(run.named("lost").size() == 1);
    CHECK(took.count() < 6.0); // 0.5 s of sound, 1 s of watchdog, up to 2 s to close, the start of a process
}

TEST_CASE("capture: a device that comes back is opened again by its name", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(400'000));
    const auto presence = scenario.write_samples("present", {0.0F});
    // A device before it comes and goes, too: an index would point elsewhere.
    scenario.add_microphone("another",
                            fmt::format("infile \"{}\" presence \"{}\"", file.string(), presence.string()));
    scenario.add_microphone("harp",
                            fmt::format("infile \"{}\" presence \"{}\"", file.string(), presence.string()));

    std::thread hand{[&] {
        std::this_thread::sleep_for(std::chrono::milliseconds(900));
        std::filesystem::remove(presence);
        std::this_thread::sleep_for(std::chrono::milliseconds(3000));
        scenario.write_samples("present", {0.0F});
    }};
    const auto run = scenario.probe("--device harp --until back");
    hand.join();

    REQUIRE(run.exit_code == 0);
    CHECK(run.named("lost").size() == 1);
    CHECK(run.named("lost").front().at("may_return") == true);
    CHECK(run.named("back").size() == 1);
}

TEST_CASE("capture: a device that another program holds is named with advice", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(1000));
    const auto lock = scenario.path("held");
    scenario.add_microphone("harp",
                            fmt::format("infile \"{}\" busyfile \"{}\"", file.string(), lock.string()));

    SECTION("held while devices are listed: it is not in the list")
    {
        scenario.write_samples("held", {0.0F});
        const auto run = scenario.probe("--device harp");
        CHECK(run.exit_code == 1);
        const std::string message = run.named("failed").at(0).at("message");
        CHECK_THAT(message, Catch::Contains("no recording device is named \"harp\""));
    }
    SECTION("held since")
    {
        const auto run = scenario.probe(fmt::format("--device harp --touch '{}'", lock.string()));
        CHECK(run.exit_code == 1);
        const std::string message = run.named("failed").at(0).at("message");
        CHECK_THAT(message, Catch::Contains("another program may be using it"));
    }
}

TEST_CASE("capture: a device that is gone before it is opened is named with advice", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(1000));
    const auto presence = scenario.write_samples("present", {0.0F});
    scenario.add_microphone("harp",
                            fmt::format("infile \"{}\" presence \"{}\"", file.string(), presence.string()));
    scenario.add_microphone("spare", fmt::format("infile \"{}\"", file.string()));

    SECTION("gone while devices are listed")
    {
        std::filesystem::remove(presence);
        const auto run = scenario.probe("--device harp");
        CHECK(run.exit_code == 1);
        const std::string message = run.named("failed").at(0).at("message");
        CHECK_THAT(message,
                   Catch::Contains("no recording device is named \"harp\"") && Catch::Contains("\"spare\""));
    }
    SECTION("gone since")
    {
        const auto run = scenario.probe(fmt::format("--device harp --remove '{}'", presence.string()));
        CHECK(run.exit_code == 1);
        const std::string message = run.named("failed").at(0).at("message");
        CHECK_THAT(message, Catch::Contains("could not be opened"));
    }
}

TEST_CASE("capture: a resampling device is named as such and not chosen by itself", "[audio]")
{
    Scenario scenario;
    const auto file = scenario.write_samples("numbers.raw", numbered_samples(1000));
    const std::string inner =
        fmt::format("{{ type virtual_microphone infile \"{}\" rate 44100 }}", file.string());
    scenario.add_block("pcm.bent { type plug slave.pcm " + inner + " }");
    scenario.add_block("pcm.hidden { type asym capture.pcm \"bent\" }");

    const auto listed = scenario.probe("--list 1");
    REQUIRE(listed.named("device").size() == 2);
    for (const auto& device : listed.named("device")) CHECK(device.at("path") == "resampling");

    const auto run = scenario.probe("--frames 100");
    CHECK(run.exit_code == 1);
    const std::string message = run.named("failed").at(0).at("message");
    CHECK_THAT(message, Catch::Contains("may resample"));
}

TEST_CASE("capture: a device that only sends exact zeros is dead", "[audio]")
{
    Scenario scenario;
    auto samples = numbered_samples(48000);
    const auto file = scenario.write_samples("numbers.raw", samples); // zeros follow
    scenario.add_microphone("harp", fmt::format("infile \"{}\" speed 5", file.string()));

    const auto run = scenario.probe("--device harp --speed 5 --until dead");

    REQUIRE(run.exit_code == 0);
    CHECK(run.named("dead").size() == 1);
    CHECK(run.named("lost").empty());
}
