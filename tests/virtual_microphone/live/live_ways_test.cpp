// SPDX-License-Identifier: MIT
//
// The ways through a harp that a live check offers, and tuning by a list, with the program itself at the
// virtual microphone.
#include "../live_run.hpp"

#include "harp/expected_pitch.hpp"

#include <fstream>
#include <functional>
#include <set>

using namespace harpkeep;
using namespace harpkeep::test;

namespace {

HarpLayout ten_strings() // 4C to 3E: two strings each of C, D and E
{
    return make_layout({.lowest = StringPlace{Letter::C, 4}, .highest = StringPlace{Letter::E, 5}}).value();
}

struct Way {
    const char* words;
    std::vector<PlannedPluck> (*plan)(const HarpLayout&, Direction);
    std::set<std::string> strings; ///< that it asks for
};

/// Of a plan what belongs to some strings.
std::vector<PlannedPluck> only(std::vector<PlannedPluck> plan, const HarpLayout& layout,
                               const std::set<std::string>& strings)
{
    std::erase_if(plan, [&](const PlannedPluck& planned) {
        return !strings.contains(harp_name(layout.strings[planned.string_index].place));
    });
    return plan;
}

SyntheticRecording sounded(const HarpLayout& layout, const std::vector<PlannedPluck>& plan)
{
    const auto harp = make_synthetic_harp(layout, {.seed = 41});
    return render_recording(harp, play(harp, plan, {.seed = 41}).events, {.snr_db = 35.0, .seed = 41});
}

std::set<std::string> strings_of(const std::vector<nlohmann::json>& kept)
{
    std::set<std::string> strings;
    for (const auto& reading : kept) strings.insert(reading.at("place").get<std::string>());
    return strings;
}

/// Three positions of each string, and nothing else, kept at their places and made into two steps each.
void check_way(const LiveRun& run, const SyntheticRecording& recording, const std::set<std::string>& strings)
{
    CHECK(run.kept.size() == 3 * strings.size());
    CHECK(strings_of(run.kept) == strings);
    CHECK(wrong_places(run.kept, recording) == 0);
    CHECK(steps_of(run.check).size() == 2 * strings.size());
}

} // namespace

TEST_CASE("live check: one pedal, one octave, some strings, string by string, pedal by pedal", "[audio]")
{
    const auto way = GENERATE(Way{"--way pedal --pedal D", plan_pass_by_pass, {"4D", "3D"}},
                              Way{"--way octave --octave 3", plan_pass_by_pass, {"3C", "3D", "3E"}},
                              Way{"--way strings --strings 4E 3A", plan_pass_by_pass, {"4E", "3A"}},
                              Way{"--way string-by-string",
                                  plan_string_by_string,
                                  {"4C", "4D", "4E", "3F", "3G", "3A", "3B", "3C", "3D", "3E"}},
                              Way{"--way pedal-by-pedal",
                                  plan_pedal_by_pedal,
                                  {"4C", "4D", "4E", "3F", "3G", "3A", "3B", "3C", "3D", "3E"}});
    CAPTURE(way.words);
    const auto layout = ten_strings();
    const auto recording =
        sounded(layout, only(way.plan(layout, Direction::low_to_high), layout, way.strings));
    LiveHarp live{"Heron", "--lowest 4C --highest 3E"};
    check_way(run_live(live, recording, fmt::format("{} --closing 0", way.words)), recording, way.strings);
}

TEST_CASE("live check: the doubtful strings are those that the last check left without a step", "[audio]")
{
    const auto layout = ten_strings();
    auto plan = plan_pass_by_pass(layout, Direction::low_to_high);
    std::erase_if(plan, [&](const PlannedPluck& planned) {
        const auto place = harp_name(layout.strings[planned.string_index].place);
        return (place == "4D" && planned.position == Position::natural) ||
               (place == "3B" && planned.position == Position::sharp);
    });
    LiveHarp live{"Heron", "--lowest 4C --highest 3E"};
    live.set_sound(sounded(layout, plan).samples, 1.0); // for the file that is checked first
    const auto first = live.run(fmt::format("check '{}' --harp Heron", live.path("recording.wav").string()));
    INFO(first.text.substr(0, 2000));
    REQUIRE(first.exit_code == 0);

    const std::set<std::string> doubtful{"4D", "3B"};
    const auto again =
        sounded(layout, only(plan_pass_by_pass(layout, Direction::low_to_high), layout, doubtful));
    check_way(run_live(live, again, "--way doubtful --closing 0"), again, doubtful);

    const auto none_left = live.run("check --live --harp Heron --device harp --way doubtful");
    INFO(none_left.text);
    CHECK(none_left.exit_code != 0);
    CHECK(none_left.text.find("doubt") != std::string::npos);
}

TEST_CASE("tune: a list says how far from the temperament each string belongs", "[audio]")
{
    const auto layout = ten_strings();
    const auto harp = make_synthetic_harp(layout, {.open_offset_sd_cents = 0.0, .seed = 42});
    const auto events =
        play(harp, plan_pass(layout, Position::flat, Direction::low_to_high), {.seed = 42}).events;
    const auto recording = render_recording(harp, events, {.snr_db = 40.0, .seed = 42});
    LiveHarp live{"Heron", "--lowest 4C --highest 3E"};
    // 4C belongs 6 cents higher than it is: its open string is C flat in equal temperament at 440 Hz.
    const double wanted_hz =
        equal_temperament(key_number({Letter::C, 4}, -1), Hertz{440.0}).value() * std::exp2(6.0 / 1200.0);
    std::ofstream{live.path("list.json")} << nlohmann::json{
        {"a4_hz", 440.0},
        {"temperament", "equal"},
        {"strings", nlohmann::json::array({{{"place", "4C"}, {"frequency_hz", wanted_hz}}})}};

    const double speed = speed_for(recording);
    live.set_sound(recording.samples, speed);
    const auto run = live.run(fmt::format("tune --harp Heron --device harp --device-speed {} --list '{}'",
                                          speed, live.path("list.json").string()),
                              &stop_at_end_of_sound);
    INFO(run.text.substr(run.text.size() > 3000 ? run.text.size() - 3000 : 0));
    REQUIRE(run.exit_code == 0); // also when the microphone gives zeros while a string still rings
    std::map<std::string, double> last_cents;
    for (const auto& pitch : run.named("pitch"))
        if (pitch.contains("place") && pitch.contains("deviation_cents"))
            last_cents[pitch["place"]] = pitch["deviation_cents"];
    REQUIRE(last_cents.contains("4C"));
    CHECK(last_cents["4C"] == Approx(-6.0).margin(1.0)); // while it rings, an open string glides by less
    CHECK(last_cents["4D"] == Approx(0.0).margin(1.0));  // not in the list: the temperament

    std::ofstream{live.path("other.json")}
        << R"({"a4_hz": 440, "temperament": "equal", "strings": [{"place": "7C", "frequency_hz": 32}]})";
    const auto refused =
        live.run(fmt::format("tune --harp Heron --list '{}'", live.path("other.json").string()));
    CHECK(refused.exit_code == 4);
    CHECK(refused.text.find("7C is no string of this one") != std::string::npos);
}
