// SPDX-License-Identifier: MIT
#include "recording_room.hpp"

#include <cmath>
#include <sstream>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

std::vector<Json> lines_of(const Run& run)
{
    std::vector<Json> lines;
    std::istringstream in(run.out);
    for (std::string line; std::getline(in, line);) lines.push_back(Json::parse(line));
    return lines;
}

double cents_off(const Json& pluck, double frequency_hz)
{
    return 1200.0 * std::log2(pluck["frequency_hz"].get<double>() / frequency_hz);
}

} // namespace

TEST_CASE("pluck: one JSON object a line for each pluck of each file", "[cli]")
{
    RecordingRoom room;
    const auto flat = room.play_plan(plan_pass(room.layout(), Position::flat, Direction::low_to_high));
    const auto sharp = room.play_plan(plan_pass(room.layout(), Position::sharp, Direction::high_to_low));
    const auto first = room.write("first.wav", flat), second = room.write("second.flac", sharp);
    const auto run = room.run("pluck " + first + " " + second + " --json");
    INFO(run.errors);
    REQUIRE(run.code == 0);
    const auto plucks = lines_of(run);
    REQUIRE(plucks.size() == 16);
    for (std::size_t i = 0; i < plucks.size(); ++i) {
        const auto& truth = i < 8 ? flat.truth[i] : sharp.truth[i - 8];
        CHECK(keys_of(plucks[i]) == std::vector<std::string>{"decay_s", "file", "frequency_hz", "glide_cents",
                                                             "inharmonicity", "reasons", "snr_db", "start_s",
                                                             "trusted", "uncertainty_cents"});
        CHECK(plucks[i]["file"] == (i < 8 ? first : second));
        CHECK(plucks[i]["start_s"].get<double>() == Approx(truth.event.start_s).margin(0.02)); // two hops
        CHECK(cents_off(plucks[i], truth.frequency_hz) == Approx(0.0).margin(0.5));            // at 40 dB
        CHECK(plucks[i]["inharmonicity"].get<double>() == Approx(truth.inharmonicity).epsilon(0.1));
        CHECK(plucks[i]["decay_s"].get<double>() > 0.1);
        CHECK(plucks[i]["snr_db"].get<double>() > 25.0); // 40 dB in the whole band
    }
}

TEST_CASE("pluck: prints the same for people", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write(
        "flat.wav", room.play_plan(plan_pass(room.layout(), Position::flat, Direction::low_to_high)));
    const auto run = room.run("pluck " + file);
    CHECK(run.code == 0);
    CHECK(run.says("flat.wav: 8 plucks"));
    CHECK(run.says(" Hz  ± "));
    CHECK(run.says(" cents  B "));
}

TEST_CASE("pluck: --near chooses among the pitches that a sound may have", "[cli]")
{
    // 3C plucked while 4C, an octave lower, still rings: all partials of the one are partials of the other.
    RecordingRoom room;
    const auto harp = room.harp();
    std::vector<SoundEvent> events(2);
    events[0].start_s = 0.5, events[0].place = *place_from_harp_name("4C");
    events[1].start_s = 1.3, events[1].place = *place_from_harp_name("3C");
    for (auto& event : events) event.position = Position::natural, event.pluck.level_dbfs = -20.0;
    const auto recording = render_recording(harp, events, {.sample_rate_hz = 32000.0, .snr_db = 40.0});
    const auto file = room.write("octave.wav", recording);
    const double high_hz = recording.truth[1].frequency_hz;
    const auto as_heard = lines_of(room.run("pluck " + file + " --json"));
    REQUIRE(as_heard.size() == 2);
    CHECK(cents_off(as_heard[1], high_hz) == Approx(0.0).margin(2.0)); // the lower one rings in its partials
    const auto by_name = lines_of(room.run("pluck " + file + " --near 3C --json"));
    CHECK(cents_off(by_name.at(1), high_hz) == Approx(0.0).margin(2.0));
    const auto by_hertz = lines_of(room.run("pluck " + file + " --near 523.25 --json"));
    CHECK(by_hertz == by_name);
    const auto wrong = room.run("pluck " + file + " --near H4");
    CHECK(wrong.code == 2);
    CHECK(wrong.says("--near H4 is neither a string, as in 4C, nor a frequency between 15 and 8000 Hz"));
}
