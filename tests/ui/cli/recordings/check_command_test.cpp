// SPDX-License-Identifier: MIT
#include "recording_room.hpp"

#include <cmath>
#include <map>
#include <sstream>

using namespace harpkeep;
using namespace harpkeep::tests;

namespace {

/// Each step of the JSON is that of the harp which was rendered.
void check_steps(const RecordingRoom& room, const Json& check, std::size_t expected_count)
{
    CHECK(check["steps"].size() == expected_count);
    const auto harp = room.harp();
    for (const auto& step : check["steps"]) {
        const auto place = place_from_harp_name(step["place"].get<std::string>()).value();
        const auto kind = step_from_name(step["step"].get<std::string>()).value();
        const double truth = true_step_error_cents(harp, string_index_of(room.layout(), place).value(), kind);
        CAPTURE(harp_name(place), step_name(kind));
        CHECK(step["error_cents"].get<double>() == Approx(truth).margin(0.5)); // the 95 % limit of a step
        CHECK(step["uncertainty_cents"].get<double>() > 0.0);
    }
}

/// The figures of one cell of a table: "+3.21 ± 0.04".
std::optional<double> cents_of(const std::string& cell)
{
    std::string text = cell;
    for (const std::string minus : {"−", "-"})
        if (const auto at = text.find(minus); at != std::string::npos) text.replace(at, minus.size(), "-");
    std::istringstream in(text);
    double value = 0.0;
    if (!(in >> value)) return std::nullopt;
    return value;
}

} // namespace

TEST_CASE("check: prints the JSON that programs are promised", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write("passes.wav", room.play_passes({.skipped = "3G"}));
    const auto run = room.run("check " + file + " --harp Wren --json");
    INFO(run.errors);
    REQUIRE(run.code == 0);
    const auto check = run.json();
    CHECK(keys_of(check) == std::vector<std::string>{"a4_hz", "harp", "ignored", "missing", "readings",
                                                     "remarks", "steps", "whole_steps"});
    CHECK(check["harp"] == "Wren");
    CHECK(check["a4_hz"] == 440.0);
    CHECK(check["readings"].size() == 21); // seven strings of eight in three positions
    for (const auto& reading : check["readings"]) {
        CHECK(keys_of(reading) == std::vector<std::string>{"file", "frequency_hz", "place", "position",
                                                           "reasons", "start_s", "trusted",
                                                           "uncertainty_cents"});
        CHECK(reading["file"] == file);
        CHECK(reading["trusted"] == true);
        CHECK(reading["reasons"] == Json::array());
    }
    check_steps(room, check, 14);
    for (const auto& step : check["steps"])
        CHECK(keys_of(step) == std::vector<std::string>{"error_cents", "place", "step", "uncertainty_cents"});
    CHECK(check["missing"] == Json::array({{{"place", "3G"}, {"position", "flat"}},
                                           {{"place", "3G"}, {"position", "natural"}},
                                           {{"place", "3G"}, {"position", "sharp"}}}));
}

TEST_CASE("check: tells what was heard besides strings, and when", "[cli]")
{
    RecordingRoom room;
    auto recording = room.play_passes();
    // A knock on the soundboard half a second before the first string.
    for (std::size_t n = 0; n < 3200; ++n)
        recording.samples[n + 3200] += 0.2F * static_cast<float>(std::exp(-static_cast<double>(n) / 400.0) *
                                                                 std::sin(0.05 * static_cast<double>(n)));
    const auto check =
        room.run("check " + room.write("knock.flac", recording) + " --harp Wren --json").json();
    REQUIRE(check["ignored"].size() == 1);
    CHECK(keys_of(check["ignored"][0]) == std::vector<std::string>{"file", "reason", "start_s"});
    CHECK(check["ignored"][0]["start_s"].get<double>() ==
          Approx(0.1).margin(0.02)); // two hops of the detector
    CHECK(check["ignored"][0]["reason"] == "knock");
    check_steps(room, check, 16);
}

TEST_CASE("check: a file for each pass, named and not named, gives the same steps", "[cli]")
{
    RecordingRoom room;
    std::map<Position, std::string> files;
    for (const Position position : {Position::flat, Position::natural, Position::sharp})
        files[position] =
            room.write(fmt::format("{}.wav", position_name(position)),
                       room.play_plan(plan_pass(room.layout(), position, Direction::low_to_high)));
    const auto named = room.run("check --harp Wren --json --sharp " + files[Position::sharp] + " --flat " +
                                files[Position::flat] + " --natural " + files[Position::natural]);
    INFO(named.errors);
    REQUIRE(named.code == 0);
    check_steps(room, named.json(), 16);
    const auto natural = named.json()["readings"];
    CHECK(std::count_if(natural.begin(), natural.end(),
                        [&](const Json& r) { return r["file"] == files[Position::natural]; }) == 8);
    const auto in_order = room.run("check " + files[Position::flat] + " " + files[Position::natural] + " " +
                                   files[Position::sharp] + " --harp Wren --json");
    REQUIRE(in_order.code == 0);
    CHECK(in_order.json()["steps"] == named.json()["steps"]);
}

TEST_CASE("check: is kept once, with the recording's hash, unless told otherwise", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write("passes.wav", room.play_passes());
    const auto before = read_bytes(room.ledger_path());
    CHECK(room.run("check " + file + " --harp Wren --no-store").code == 0);
    CHECK(read_bytes(room.ledger_path()) == before);
    CHECK(room.stored_checks() == 0);
    CHECK(room.run("check " + file + " --harp Wren").code == 0);
    CHECK(room.stored_checks() == 1);
}

TEST_CASE("check: --a4 says what the harp is tuned to; without it the difference is told", "[cli]")
{
    RecordingRoom room;
    const auto file = room.write("low.wav", room.play_passes({.a4_hz = 415.0}));
    const auto told = room.run("check " + file + " --harp Wren --json --a4 415");
    REQUIRE(told.code == 0);
    CHECK(told.json()["a4_hz"] == 415.0);
    CHECK(told.json()["remarks"] == Json::array());
    check_steps(room, told.json(), 16);
    // 415 Hz is 101 cents under 440 Hz (ISO 16 and its ratio): found all the same, and said.
    const auto untold = room.run("check " + file + " --harp Wren");
    CHECK(untold.code == 0);
    CHECK(untold.says("The harp as a whole is 10")); // 101 give or take its offsets of 4 cents
    CHECK(room.run("check " + file + " --harp Wren --a4 100").code == 2);
}

TEST_CASE("check: the table shows the worst strings first, with sign and uncertainty", "[cli]")
{
    RecordingRoom room;
    const auto run = room.run("check " + room.write("passes.wav", room.play_passes()) + " --harp Wren");
    REQUIRE(run.code == 0);
    CHECK(run.says("Wren: 24 readings, 24 used; 16 of 16 steps measured; A4 = 440.0 Hz."));
    CHECK(run.says("worst strings first"));
    std::istringstream lines(run.out);
    std::string line;
    std::vector<double> worst;
    while (std::getline(lines, line)) {
        if (!place_from_harp_name(line.substr(0, 2))) continue;
        CHECK(line.find("±") != std::string::npos);
        // string, lower, upper, whole: cells are two or more spaces apart.
        double largest = 0.0;
        std::size_t at = 2;
        for (int cell = 0; cell < 2; ++cell) {
            at = line.find_first_not_of(' ', at);
            const auto end = line.find("  ", at);
            const auto cents = cents_of(line.substr(at, end - at));
            REQUIRE(cents.has_value());
            CHECK((line[at] == '+' || line[at] == '-' || line.compare(at, 3, "−") == 0 || *cents == 0.0));
            largest = std::max(largest, std::abs(*cents));
            at = end;
        }
        worst.push_back(largest);
    }
    CHECK(worst.size() == 8);
    for (std::size_t i = 1; i < worst.size(); ++i) CHECK(worst[i] <= worst[i - 1] + 0.05); // last shown digit
}

TEST_CASE("check: the table of a pedal harp names its positions, though sharps were not sounded",
          "[cli][regression]")
{
    RecordingRoom room;
    auto plan = plan_pass_by_pass(room.layout(), Direction::low_to_high);
    std::erase_if(plan, [](const PlannedPluck& planned) { return planned.position == Position::sharp; });
    const auto run = room.run("check " + room.write("two.wav", room.play_plan(plan)) + " --harp Wren");
    REQUIRE(run.code == 0);
    CHECK(run.says("8 of 16 steps measured"));
    CHECK(run.says("string  flat to natural  natural to sharp"));
    CHECK(run.says("No string was sounded in sharp."));
    CHECK(run.out.find("\n\n\n") == std::string::npos);
}

TEST_CASE("check: a lever harp has open and engaged, and says so when asked for more", "[cli]")
{
    RecordingRoom room(HarpKind::lever);
    const auto open = room.write(
        "open.wav", room.play_plan(plan_pass(room.layout(), Position::open, Direction::low_to_high)));
    const auto engaged = room.write(
        "engaged.wav", room.play_plan(plan_pass(room.layout(), Position::engaged, Direction::low_to_high)));
    const auto run = room.run("check --open " + open + " --engaged " + engaged + " --harp Wren --json");
    INFO(run.errors);
    REQUIRE(run.code == 0);
    check_steps(room, run.json(),
                7); // of 8: 4C still sounds when 4E is plucked, and 4E is doubted as disturbed
    const auto refused = room.run("check --flat " + open + " --harp Wren");
    CHECK(refused.code == 2);
    CHECK(refused.says("a lever harp has no position flat; use --open and --engaged"));
}
