// SPDX-License-Identifier: MIT
#pragma once

#include "audio/sound_writer.hpp"
#include "db/records/checks.hpp"
#include "synth/synthetic_playing.hpp"
#include "tests/support/example_ledger.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdlib>
#include <string>
#include <sys/wait.h>
#include <vector>

namespace harpkeep::tests {

using Json = nlohmann::json;

/// What the program printed and how it ended.
struct Run {
    std::string out, errors;
    int code = 0;

    [[nodiscard]] bool says(const std::string& part) const
    {
        return out.find(part) != std::string::npos || errors.find(part) != std::string::npos;
    }
    [[nodiscard]] Json json() const { return Json::parse(out); }
};

/// How the small harp of these tests is recorded.
struct Take {
    double sample_rate_hz = 32000.0;
    double snr_db = 40.0;
    double a4_hz = 440.0;
    double gain_db = 0.0;
    double dc_offset = 0.0;
    double clip_level = 1.0;
    std::optional<std::string> skipped; ///< a string left out in every position
};

/// A ledger with Wren, an invented harp of an octave (4C to 3C), and recordings of it.
class RecordingRoom {
  public:
    explicit RecordingRoom(HarpKind kind = HarpKind::pedal)
        : layout_(
              make_layout(
                  {.kind = kind, .lowest = place_from_harp_name("4C"), .highest = place_from_harp_name("3C")})
                  .value())
    {
        auto ledger = db::Ledger::open(ledger_path(), db::Access::create, test::an_evening).value();
        wren_ = db::add_harp(ledger, test::that_evening(), {.name = "Wren", .layout = layout_}).value();
    }

    [[nodiscard]] const HarpLayout& layout() const { return layout_; }
    [[nodiscard]] std::string ledger_path() const { return folder_ / "room.harpkeep"; }
    [[nodiscard]] const std::filesystem::path& folder() const { return folder_.path(); }
    [[nodiscard]] std::string file(const std::string& name) const { return folder_ / name; }
    [[nodiscard]] SyntheticHarp harp(double a4_hz = 440.0) const
    {
        return make_synthetic_harp(layout_, {.a4 = Hertz{a4_hz}, .seed = 5});
    }

    /// Passes played as planned, as samples.
    [[nodiscard]] SyntheticRecording play_plan(std::vector<PlannedPluck> plan, const Take& take = {}) const
    {
        const auto wren = harp(take.a4_hz);
        if (take.skipped) {
            const auto index = string_index_of(layout_, place_from_harp_name(*take.skipped).value()).value();
            std::erase_if(plan, [&](const PlannedPluck& planned) { return planned.string_index == index; });
        }
        const auto performance =
            play(wren, plan, {.first_s = 0.6, .gap_s = 1.0, .between_groups_s = 0.6, .level_dbfs = -18.0});
        return render_recording(wren, performance.events,
                                {.sample_rate_hz = take.sample_rate_hz,
                                 .snr_db = take.snr_db,
                                 .dc_offset = take.dc_offset,
                                 .gain_db = take.gain_db,
                                 .clip_level = take.clip_level});
    }
    [[nodiscard]] SyntheticRecording play_passes(const Take& take = {}) const
    {
        return play_plan(plan_pass_by_pass(layout_, Direction::low_to_high), take);
    }

    /// Writes samples to a file of this room; its ending says which kind.
    std::string write(const std::string& name, const std::vector<float>& samples, double rate_hz,
                      int channels = 1) const
    {
        auto writer = SoundWriter::create(
            file(name),
            {.sample_rate_hz = static_cast<int>(rate_hz), .channels = channels, .bits_per_sample = 16});
        REQUIRE(writer.has_value());
        REQUIRE(writer->write(samples).has_value());
        REQUIRE(writer->finish().has_value());
        return file(name);
    }
    std::string write(const std::string& name, const SyntheticRecording& recording) const
    {
        return write(name, recording.samples, recording.sample_rate_hz);
    }

    /// Runs the program, with `before` in front of its name, on the ledger of this room or another.
    [[nodiscard]] Run run(const std::string& arguments, const std::string& before = "",
                          const std::string& ledger = "") const
    {
        const auto command =
            fmt::format("{} {} {} --ledger {} >{} 2>{}", before, HARPKEEP_PROGRAM, arguments,
                        ledger.empty() ? ledger_path() : ledger, file("out"), file("errors"));
        Run run;
        run.code = WEXITSTATUS(std::system(command.c_str()));
        run.out = read_bytes(file("out"));
        run.errors = read_bytes(file("errors"));
        return run;
    }

    [[nodiscard]] std::size_t stored_checks() const
    {
        const auto ledger = db::Ledger::open(ledger_path(), db::Access::read, test::an_evening).value();
        const auto checks = db::checks_of(ledger, wren_).value();
        return checks.size();
    }

  private:
    TemporaryFolder folder_;
    HarpLayout layout_;
    Uuid wren_;
};

inline std::vector<std::string> keys_of(const Json& object)
{
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) keys.push_back(key); // in alphabetical order
    return keys;
}

} // namespace harpkeep::tests
