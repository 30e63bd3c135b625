// SPDX-License-Identifier: MIT
#include "../live_run.hpp"

using namespace harpkeep;
using namespace harpkeep::test;

TEST_CASE("live check: a whole harp in three passes with mishaps gives the steps of the file analysis",
          "[audio]")
{
    const auto layout = make_layout({}).value();
    const SyntheticHarp harp = make_synthetic_harp(layout, {.seed = 21});
    const Mishaps mishaps{.skipped = 3, .repeated = 3, .corrected = 2, .knocks = 3, .coughs = 2, .talks = 1};
    const auto performance = play(harp, plan_pass_by_pass(layout, Direction::low_to_high),
                                  {.gap_s = 2.2, .between_groups_s = 6.0, .mishaps = mishaps, .seed = 21});
    const auto recording = render_recording(harp, performance.events, {.snr_db = 35.0, .seed = 21});

    LiveHarp live{"Heron", ""};
    const auto run = run_live(live, recording, "--closing 0");
    CHECK(wrong_places(run.kept, recording) == 0);

    const auto file =
        live.run(fmt::format("check '{}' --harp Heron --no-store", live.path("recording.wav").string()));
    REQUIRE(file.exit_code == 0);
    const auto from_file = steps_of(nlohmann::json::parse(file.text));
    const auto from_live = steps_of(run.check);
    int compared = 0;
    for (const auto& [step, cents] : from_live) {
        const auto found = from_file.find(step);
        if (found == from_file.end()) continue;
        ++compared;
        CAPTURE(step.first, step.second);
        CHECK(cents == Approx(found->second).margin(0.05)); // what a guided check promises
    }
    CHECK(compared >= 80); // of 90; three strings were skipped
}
