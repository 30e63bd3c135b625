// SPDX-License-Identifier: MIT
//
// What can happen to a live check besides the harp: a program that is killed, a cable that comes off, sound
// that is lost, a room that hums.
#include "../live_run.hpp"

#include <fstream>
#include <numbers>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

/// Three strings in three passes, and the harp that they belong to.
struct ShortCheck {
    explicit ShortCheck(std::uint64_t seed)
    {
        const auto layout =
            make_layout({.lowest = StringPlace{Letter::C, 4}, .highest = StringPlace{Letter::E, 4}}).value();
        const SyntheticHarp synthetic = make_synthetic_harp(layout, {.seed = seed});
        const auto events =
            play(synthetic, plan_pass_by_pass(layout, Direction::low_to_high), {.seed = seed}).events;
        recording = render_recording(synthetic, events, {.snr_db = 35.0, .seed = seed});
    }

    LiveHarp harp{"Heron", "--lowest 4C --highest 4E"};
    SyntheticRecording recording;
};

constexpr const char* command = "check --live --harp Heron --device harp --closing 0";

/// Presses "q" when the sound is through, and does something else before.
LiveHarp::Answer and_stop_at_end(const LiveHarp::Answer& first)
{
    return [first](const nlohmann::json& line) { return first(line) + stop_at_end_of_sound(line); };
}

} // namespace

TEST_CASE("live check: what was said to be kept is on the disk when the program is killed", "[audio]")
{
    ShortCheck check{31};
    check.harp.set_sound(check.recording.samples, 2.0);
    int kept = 0;
    const auto killed = check.harp.run(fmt::format("{} --device-speed 2", command), [&](const auto& line) {
        if (line.value("event", "") == "kept" && ++kept == 4) check.harp.kill();
        return "";
    });
    CHECK(killed.exit_code != 0);
    REQUIRE(kept >= 4);
    const auto finished = check.harp.run("check --live --finish --harp Heron");
    REQUIRE(finished.exit_code == 0);
    CHECK(finished.named("check").at(0).at("readings").size() >= 4);
}

TEST_CASE("live check: a microphone that comes off is waited for", "[audio]")
{
    ShortCheck check{32};
    const auto presence = check.harp.path("plugged_in");
    const auto plug_in = [&] { std::ofstream{presence} << "in"; };
    plug_in();
    check.harp.set_sound(check.recording.samples, 2.0, fmt::format("presence \"{}\"", presence.string()));
    int kept = 0;
    int lost = 0;
    // The virtual microphone plays its sound from the start when it is back, so all is plucked again.
    const auto run = check.harp.run(
        fmt::format("{} --device-speed 2", command), and_stop_at_end([&](const nlohmann::json& line) {
            const std::string event = line.value("event", "");
            if (event == "kept" && ++kept == 4) std::filesystem::remove(presence);
            if (event == "microphone" && line.value("trouble", "").find("unplugged") != std::string::npos) {
                ++lost;
                plug_in();
            }
            return std::string{};
        }));
    INFO(run.text);
    CHECK(run.exit_code == 0);
    CHECK(lost >= 1); // a busy computer may find it gone once more while it comes back
    REQUIRE(run.named("check").size() == 1); // complete by itself
    CHECK(run.named("check").front().at("missing").empty());
    CHECK(run.named("check").front().at("steps").size() == 6);
}

TEST_CASE("live check: sound that is lost is told and puts nothing in a wrong place", "[audio]")
{
    ShortCheck check{33};
    check.harp.set_sound(check.recording.samples, 1.0, "lossless 0 overrun 6.3");
    const auto run = check.harp.run(command, &stop_at_end_of_sound);
    INFO(run.text);
    REQUIRE(run.exit_code == 0);
    CHECK_FALSE(run.named("gap").empty());
    CHECK(wrong_places(run.named("kept"), check.recording) == 0);
}

TEST_CASE("live check: the room is judged before the first pluck", "[audio]")
{
    ShortCheck check{34};
    // A second of mains hum before the first pluck, and all the way through.
    std::vector<float> samples(48'000);
    samples.insert(samples.end(), check.recording.samples.begin(), check.recording.samples.end());
    for (std::size_t k = 0; k < samples.size(); ++k)
        samples[k] += static_cast<float>(
            0.01 * std::sin(2.0 * std::numbers::pi * 50.0 * static_cast<double>(k) / 48000.0));
    check.harp.set_sound(samples, 2.0);
    const auto run = check.harp.run(
        fmt::format("{} --device-speed 2 --no-store", command),
        [](const nlohmann::json& line) { return line.value("event", "") == "kept" ? "q" : ""; });
    INFO(run.text);
    const auto rooms = run.named("room");
    REQUIRE_FALSE(rooms.empty());
    CHECK(rooms.front().at("mains_hz") == 50.0);
    CHECK(rooms.front().at("problems").dump().find("hum") != std::string::npos);
    CHECK(rooms.front().at("problems").front().at("advice").get<std::string>().size() > 20);
    REQUIRE_FALSE(run.named("kept").empty()); // and the check goes on
}

TEST_CASE("live check: a pedal left behind is named and nothing of it is kept", "[audio]")
{
    const auto layout =
        make_layout({.lowest = StringPlace{Letter::C, 4}, .highest = StringPlace{Letter::E, 4}}).value();
    const SyntheticHarp synthetic = make_synthetic_harp(layout, {.seed = 35});
    auto plan = plan_pass_by_pass(layout, Direction::low_to_high);
    for (PlannedPluck& pluck : plan)
        if (layout.strings[pluck.string_index].place.letter == Letter::D &&
            pluck.position == Position::natural)
            pluck.position = Position::flat;
    const auto recording =
        render_recording(synthetic, play(synthetic, plan, {.seed = 35}).events, {.snr_db = 35.0, .seed = 35});
    LiveHarp live{"Heron", "--lowest 4C --highest 4E"};
    live.set_sound(recording.samples, 2.0);
    const auto run = live.run(fmt::format("{} --device-speed 2", command), &stop_at_end_of_sound);
    INFO(run.text);
    CHECK(wrong_places(run.named("kept"), recording) == 0);
    bool named = false;
    for (const auto& notice : run.named("notice"))
        named |= notice.at("text").get<std::string>().find("the D pedal") != std::string::npos;
    CHECK(named);
}
