// SPDX-License-Identifier: MIT
#include "live/room_check.hpp"
#include "ui/cli/commands.hpp"
#include "ui/cli/live_device.hpp"
#include "ui/cli/live_json.hpp"
#include "ui/cli/terminal/screen.hpp"
#include "units/format.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <chrono>
#include <cmath>
#include <thread>

namespace harpkeep::cli {

namespace {

constexpr Seconds level_every{0.5};

struct ListenWords {
    ui::DeviceChoice device;
    bool list = false;
    double silence_s = 4.0;
    double plucks_s = 6.0;
};

/// Level of the half second under way.
struct LevelMeter {
    double rate_hz;
    double power_sum = 0.0;
    float peak = 0.0F;
    std::size_t count = 0;

    /// Level and peak when a half second is full.
    std::optional<std::pair<Decibels, Decibels>> operator()(std::span<const float> samples)
    {
        for (const float sample : samples) {
            power_sum += static_cast<double>(sample) * static_cast<double>(sample);
            peak = std::max(peak, std::abs(sample));
        }
        count += samples.size();
        if (static_cast<double>(count) < level_every.value() * rate_hz) return std::nullopt;
        const Decibels level{10.0 * std::log10(power_sum / static_cast<double>(count) + 1e-20)};
        const Decibels highest{20.0 * std::log10(static_cast<double>(peak) + 1e-10)};
        *this = LevelMeter{rate_hz};
        return std::pair{level, highest};
    }
};

Result<void> list_devices(bool json)
{
    const auto found = ui::recording_devices();
    if (!found) return failure(found.error());
    const auto& inputs = *found;
    if (json) {
        auto devices = nlohmann::json::array();
        for (const AudioDevice& device : inputs) devices.push_back(device_json(device));
        print_event({{"devices", devices}});
        return {};
    }
    if (inputs.empty())
        fmt::print(
            "No recording device is there. Plug in a microphone or sound card, or check a recording.\n");
    for (const AudioDevice& device : inputs)
        fmt::print("{}\n    {}, {} channel(s), {:.0f} Hz\n    {}\n", device.name, device.host_api,
                   device.input_channels, device.rate.value(), path_advice(device.path));
    return {};
}

void print_report(const RoomReport& report)
{
    fmt::print("\n");
    if (report.noise) fmt::print("Noise of the room   {}\n", format_decibels(*report.noise));
    if (report.hum)
        fmt::print("Mains hum           {} at {:.0f} Hz\n", format_decibels(*report.hum),
                   report.mains->value());
    if (report.pluck) fmt::print("Loudest pluck       {}\n", format_decibels(*report.pluck));
    for (const RoomProblem problem : report.problems) fmt::print("{}\n", problem_advice(problem));
    if (report.problems.empty()) fmt::print("Room and microphone are good for a check.\n");
}

/// Listens to one phase: silence, then plucks.
struct Listener {
    Microphone& microphone;
    RoomCheck& room;
    bool json;
    LevelMeter meter;
    ui::MicrophoneTrouble trouble;
    std::uint64_t lost_frames = 0;

    void operator()(const MicrophoneEvent& event)
    {
        if (trouble(event)) {
            if (json)
                print_event({{"event", "microphone"}, {"trouble", trouble.text()}});
            else if (!trouble.text().empty())
                fmt::print("\n{}\n", trouble.text());
        }
        if (const auto* broken = std::get_if<StreamBroken>(&event)) {
            lost_frames += broken->gap.lost_frames;
            if (json) print_event(gap_json(broken->gap));
        }
        const auto* heard = std::get_if<SamplesHeard>(&event);
        if (!heard) return;
        room.push(heard->samples);
        if (const auto level = meter(heard->samples)) show(level->first, level->second);
    }

    void show(Decibels level, Decibels peak) const
    {
        if (json) {
            print_event({{"event", "level"}, {"level_db", level.value()}, {"peak_db", peak.value()}});
            return;
        }
        fmt::print("\r  level {:>8}   peak {:>8}   ", format_decibels(level), format_decibels(peak));
        std::fflush(stdout);
    }

    void run(double seconds)
    {
        const auto end = std::chrono::steady_clock::now() + std::chrono::duration<double>(seconds);
        while (std::chrono::steady_clock::now() < end && !end_was_asked_for()) {
            microphone.poll([&](const MicrophoneEvent& event) { (*this)(event); });
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
    }
};

Result<void> listen(const ListenWords& words, bool json)
{
    if (words.list) return list_devices(json);
    auto open = ui::open_microphone(words.device);
    if (!open) return failure(open.error());
    Microphone& microphone = *open->microphone;
    if (json)
        print_event({{"event", "listening"},
                     {"device", device_json(microphone.device())},
                     {"warning", open->warning}});
    else
        fmt::print("Listening to \"{}\" at {:.0f} Hz.\n{}{}", microphone.device().name,
                   microphone.rate().value(), open->warning, open->warning.empty() ? "" : "\n");

    RoomCheck room{microphone.rate()};
    Listener listener{microphone, room, json, LevelMeter{microphone.rate().value()}, {}, 0};
    if (!json) fmt::print("Please be silent for {:.0f} seconds.\n", words.silence_s);
    listener.run(words.silence_s);
    room.expect_plucks();
    if (!json) fmt::print("\nNow pluck a few strings, as loud as in a check.\n");
    if (json) print_event({{"event", "pluck"}});
    listener.run(words.plucks_s);
    if (json)
        print_event(room_json(room.report()));
    else
        print_report(room.report());
    if (!json && listener.lost_frames > 0)
        fmt::print("{} samples were lost: the computer is busy, or the cable loose.\n", listener.lost_frames);
    return {};
}

} // namespace

void add_command_listen(CLI::App& app, Common& common, Work& work)
{
    auto words = std::make_shared<ListenWords>();
    CLI::App* command =
        app.add_subcommand("listen", "List recording devices; judge room, microphone and level");
    command->footer(
        "Silence first, then a few plucks: tells noise, mains hum, clipping and plucks too quiet to\n"
        "measure, with advice. Devices that resample bend the pitch and are named as unfit.");
    add_common_options(*command, common);
    add_device_options(*command, words->device);
    command->add_flag("--list", words->list, "only list the devices");
    command->add_option("--silence", words->silence_s, "seconds of silence to judge the room by")
        ->check(CLI::Range(0.0, 60.0))
        ->capture_default_str();
    command->add_option("--plucks", words->plucks_s, "seconds of plucks to judge the level by")
        ->check(CLI::Range(0.0, 600.0))
        ->capture_default_str();
    command->callback(
        [words, &common, &work] { work = [words, &common] { return listen(*words, common.json); }; });
}

} // namespace harpkeep::cli
