// SPDX-License-Identifier: MIT
#include "../live_run.hpp"

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

SyntheticHarp invented_harp(const HarpLayout& layout, std::uint64_t seed)
{
    return make_synthetic_harp(layout, {.seed = seed});
}

} // namespace

TEST_CASE("live check: an octave in three passes gives the steps of the file analysis", "[audio]")
{
    const auto layout =
        make_layout({.lowest = StringPlace{Letter::C, 4}, .highest = StringPlace{Letter::B, 4}}).value();
    const SyntheticHarp harp = invented_harp(layout, 11);
    const auto performance = play(harp, plan_pass_by_pass(layout, Direction::low_to_high),
                                  {.mishaps = {.repeated = 1, .knocks = 1}, .seed = 11});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 35.0, .seed = 11});

    LiveHarp live{"Heron", "--lowest 4C --highest 3B"};
    const auto run = run_live(live, recording, "--closing 0");
    CHECK(wrong_places(run.kept, recording) == 0);
    CHECK(run.kept.size() == 22); // 21 and the repeated one

    const auto file =
        live.run(fmt::format("check '{}' --harp Heron --no-store", live.path("recording.wav").string()));
    REQUIRE(file.exit_code == 0);
    const auto from_file = steps_of(nlohmann::json::parse(file.text));
    const auto from_live = steps_of(run.check);
    CHECK(from_live.size() == 14);
    REQUIRE(from_live.size() == from_file.size());
    for (const auto& [step, cents] : from_live) {
        CAPTURE(step.first, step.second);
        CHECK(cents == Approx(from_file.at(step)).margin(0.05)); // what a guided check promises
    }
}

TEST_CASE("live check: a check that was stopped is gone on with", "[audio]")
{
    const auto layout =
        make_layout({.lowest = StringPlace{Letter::C, 4}, .highest = StringPlace{Letter::E, 4}}).value();
    const SyntheticHarp harp = invented_harp(layout, 12);
    const auto plan = plan_pass_by_pass(layout, Direction::low_to_high);
    const auto all = play(harp, plan, {.seed = 12}).events;
    const std::vector<SoundEvent> first{all.begin(), all.begin() + 4};
    std::vector<SoundEvent> rest{all.begin() + 4, all.end()};
    for (SoundEvent& event : rest) event.start_s -= all[4].start_s - 1.0;

    LiveHarp live{"Heron", "--lowest 4C --highest 4E"};
    const auto begun = render_recording(harp, first, {.snr_db = 35.0, .seed = 12});
    live.set_sound(begun.samples, 4.0);
    const auto stopped = live.run("check --live --harp Heron --device harp --device-speed 4 --closing 0",
                                  &stop_at_end_of_sound);
    CHECK(stopped.named("kept").size() == 4);
    CHECK(stopped.named("check").empty());

    const auto recording = render_recording(harp, rest, {.snr_db = 35.0, .seed = 13});
    const auto run =
        run_live(live, recording, fmt::format("--record '{}'", live.path("second.flac").string()));
    CHECK(run.kept.size() == 5);
    CHECK(wrong_places(run.kept, recording) == 0);
    CHECK(steps_of(run.check).size() == 6);
    CHECK(std::filesystem::file_size(live.path("second.flac")) > 10'000);
}
