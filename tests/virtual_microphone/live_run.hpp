// SPDX-License-Identifier: MIT
#pragma once

#include "live_harp.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace harpkeep::test {

/// What truly sounded nearest to a time.
inline const TrueSound* pluck_at(const SyntheticRecording& recording, double start_s)
{
    const TrueSound* nearest = nullptr;
    for (const TrueSound& sound : recording.truth)
        if (sound.event.kind == SoundKind::pluck &&
            (!nearest ||
             std::abs(sound.event.start_s - start_s) < std::abs(nearest->event.start_s - start_s)))
            nearest = &sound;
    return nearest;
}

/// Kept readings whose string or position is not what sounded.
inline int wrong_places(const std::vector<nlohmann::json>& kept, const SyntheticRecording& recording)
{
    int wrong = 0;
    for (const auto& reading : kept) {
        const TrueSound* truth = pluck_at(recording, reading.at("start_s").get<double>());
        REQUIRE(truth);
        wrong += harp_name(truth->event.place) != reading.at("place") ||
                 position_name(truth->event.position) != reading.at("position");
    }
    return wrong;
}

using StepKey = std::pair<std::string, std::string>;

/// The steps of a check as printed.
inline std::map<StepKey, double> steps_of(const nlohmann::json& check)
{
    std::map<StepKey, double> steps;
    for (const auto& step : check.at("steps"))
        steps[{step.at("place"), step.at("step")}] = step.at("error_cents").get<double>();
    return steps;
}

inline double length_s(const SyntheticRecording& recording)
{
    return static_cast<double>(recording.samples.size()) / recording.sample_rate_hz;
}

/// The virtual microphone hands the whole recording over within this time, less than what the program's ring
/// holds: so nothing is lost however busy the computer is, and the program takes the time that it needs.
inline constexpr double handed_over_within_s = 20.0;

inline double speed_for(const SyntheticRecording& recording)
{
    return std::max(1.0, std::ceil(length_s(recording) / handed_over_within_s));
}

/// After its sound the virtual microphone gives zeros. The program says so once all that came before is
/// heard.
inline bool is_end_of_sound(const nlohmann::json& line)
{
    return line.value("event", "") == "microphone" && line.value("trouble", "").starts_with("Only silence");
}

inline std::string stop_at_end_of_sound(const nlohmann::json& line)
{
    return is_end_of_sound(line) ? "q" : "";
}

/// Plays a recording to a live check of the harp, stops it at the end and stores it as far as it went.
struct LiveRun {
    std::vector<nlohmann::json> kept;
    nlohmann::json check;
};

inline LiveRun run_live(LiveHarp& harp, const SyntheticRecording& recording, const std::string& words)
{
    const double speed = speed_for(recording);
    harp.set_sound(recording.samples, speed);
    const auto live =
        harp.run(fmt::format("check --live --harp Heron --device harp --device-speed {} {}", speed, words),
                 &stop_at_end_of_sound);
    INFO(live.text.substr(0, 2000));
    REQUIRE(live.exit_code == 0);
    REQUIRE(live.named("gap").empty()); // a hole would be the test's own fault
    LiveRun run{.kept = live.named("kept")};
    if (const auto checks = live.named("check"); !checks.empty()) {
        run.check = checks.front();
        return run;
    }
    const auto finished = harp.run("check --live --finish --harp Heron");
    INFO(finished.text.substr(0, 2000));
    REQUIRE(finished.exit_code == 0);
    run.check = finished.named("check").at(0);
    return run;
}

} // namespace harpkeep::test
