// SPDX-License-Identifier: MIT
// The guided check and the tuning page of the window on a ledger, listening to the virtual microphone.
#include "live_run.hpp"

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

constexpr double speed = 4.0;

SyntheticHarp three_strings(std::uint64_t seed)
{
    const auto layout =
        make_layout({.lowest = StringPlace{Letter::C, 4}, .highest = StringPlace{Letter::E, 4}}).value();
    return make_synthetic_harp(layout, {.seed = seed});
}

} // namespace

TEST_CASE("window: a guided check goes from the first string to the page of today without a hand", "[audio]")
{
    const auto harp = three_strings(21);
    auto plan = plan_pass_by_pass(harp.layout, Direction::low_to_high);
    // The closing strings: all three once more, flat.
    for (std::size_t i = 0; i < 3; ++i) plan.push_back(plan[i]);
    const auto performance = play(harp, plan, {.gap_s = 2.0, .seed = 21});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 40.0, .seed = 21});
    LiveHarp live{"Heron", "--lowest 4C --highest 4E"};
    live.set_sound(recording.samples, speed);
    const auto run = live.run_program(WINDOW_PROBE, fmt::format("check {}", speed));
    INFO(run.text);
    REQUIRE(run.exit_code == 0);
    CHECK(run.named("device").size() == 1);
    const auto pages = run.named("page");
    REQUIRE_FALSE(pages.empty());
    CHECK(pages.back().at("done").get<int>() == 12);
    REQUIRE(run.named("today").size() == 1);
    CHECK(run.named("today").front().at("steps").get<int>() == 6);
}

TEST_CASE("window: a check whose microphone falls silent is told, stopped, and waits to be gone on with", "[audio]")
{
    const auto harp = three_strings(22);
    auto plan = plan_pass_by_pass(harp.layout, Direction::low_to_high);
    plan.resize(4);
    const auto performance = play(harp, plan, {.gap_s = 2.0, .seed = 22});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 40.0, .seed = 22});
    LiveHarp live{"Heron", "--lowest 4C --highest 4E"};
    live.set_sound(recording.samples, speed);
    const auto run = live.run_program(WINDOW_PROBE, fmt::format("check {}", speed));
    INFO(run.text);
    REQUIRE(run.exit_code == 0);
    CHECK(run.named("page").back().at("done").get<int>() == 4);
    CHECK(run.named("today").front().at("steps").get<int>() == 0);
    const auto rest = live.run("check --live --finish --harp Heron"); // what was measured is there
    CHECK(rest.exit_code == 0);
}

TEST_CASE("window: the tuning page names the string that sounds and how far it is off", "[audio]")
{
    auto harp = three_strings(23);
    for (std::size_t i = 0; i < 3; ++i) set_open_offset(harp, i, -6.0 + 5.0 * static_cast<double>(i));
    auto plan = plan_pass_by_pass(harp.layout, Direction::low_to_high);
    plan.resize(3);
    const auto performance = play(harp, plan, {.gap_s = 3.0, .seed = 23});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 40.0, .seed = 23});
    LiveHarp live{"Heron", "--lowest 4C --highest 4E"};
    live.set_sound(recording.samples, 1.0);
    const auto run = live.run_program(WINDOW_PROBE, "tune 1");
    INFO(run.text);
    REQUIRE(run.exit_code == 0);
    const auto strings = run.named("string");
    REQUIRE(strings.size() == 3);
    CHECK(strings[0].at("place") == "4C");
    CHECK(strings[2].at("place") == "4E");
    // The first figure on the page comes while the tone still glides; 3 cents hold it.
    CHECK(strings[0].at("off_cents").get<double>() == Approx(-6.0).margin(3.0));
    CHECK(run.named("stopped").front().at("pitches").get<int>() > 10);
}
