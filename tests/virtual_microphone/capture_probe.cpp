// SPDX-License-Identifier: MIT
//
// Records as harpkeep does and prints what happened, one JSON object a line. The tests run it as a child, so
// that each has its own ALSA configuration and a hanging driver ends with it.
#include "audio/capture_microphone.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <string>
#include <thread>

namespace {

using harpkeep::MicrophoneEvent;
using nlohmann::json;

struct Options {
    std::map<std::string, std::string> values;

    [[nodiscard]] std::string text(const std::string& name) const
    {
        const auto found = values.find(name);
        return found == values.end() ? "" : found->second;
    }
    [[nodiscard]] double number(const std::string& name, double otherwise) const
    {
        return values.contains(name) ? std::stod(text(name)) : otherwise;
    }
};

void print(const json& line)
{
    fmt::print("{}\n", line.dump());
    std::fflush(stdout);
}

int fail(const harpkeep::Error& error)
{
    print({{"event", "failed"}, {"code", static_cast<int>(error.code)}, {"message", error.message}});
    return 1;
}

/// Prints events, writes samples, and knows when the run is over.
struct Recorder {
    std::ofstream file;
    std::uint64_t frames = 0;
    std::string last_event;

    void operator()(const harpkeep::SamplesHeard& heard)
    {
        if (file.is_open())
            file.write(reinterpret_cast<const char*>(heard.samples.data()),
                       static_cast<std::streamsize>(heard.samples.size_bytes()));
        frames += heard.samples.size();
    }
    void operator()(const harpkeep::StreamBroken& broken)
    {
        note("gap", {{"heard_frames", frames},
                     {"at_frame", broken.at_frame},
                     {"lost_frames", broken.gap.lost_frames},
                     {"counted", broken.gap.counted}});
    }
    void operator()(const harpkeep::SourceDead& dead) { note("dead", {{"silence_s", dead.silence.value()}}); }
    void operator()(const harpkeep::SourceAlive&) { note("alive", json::object()); }
    void operator()(const harpkeep::DeviceLost& lost)
    {
        note("lost", {{"reason", lost.reason}, {"may_return", lost.may_return}, {"heard_frames", frames}});
    }
    void operator()(const harpkeep::DeviceBack&) { note("back", {{"heard_frames", frames}}); }

    void note(const std::string& event, json line)
    {
        last_event = event;
        line["event"] = event;
        print(line);
    }
};

void list_inputs(const harpkeep::CaptureSystem& system)
{
    for (const auto& device : system.inputs())
        print({{"event", "device"},
               {"name", device.name},
               {"host_api", device.host_api},
               {"rate_hz", device.rate.value()},
               {"path", std::string{harpkeep::path_name(device.path)}}});
}

int record(harpkeep::CaptureSystem& system, const Options& options)
{
    const auto device =
        choose_device(system.inputs(), {.host_api = options.text("host"), .name = options.text("device")});
    if (!device) return fail(device.error());
    // What happens between choosing a device and opening it.
    if (!options.text("touch").empty()) std::ofstream{options.text("touch")} << "held";
    if (!options.text("remove").empty()) std::filesystem::remove(options.text("remove"));
    harpkeep::CaptureSettings settings;
    settings.clock_factor = options.number("speed", 1.0);
    settings.ring = harpkeep::Seconds{options.number("ring", settings.ring.value())};
    auto microphone = harpkeep::Microphone::open(system, *device, settings);
    if (!microphone) return fail(microphone.error());

    Recorder recorder;
    if (!options.text("out").empty()) recorder.file.open(options.text("out"), std::ios::binary);
    const auto wanted = static_cast<std::uint64_t>(options.number("frames", 1e18));
    const std::string until = options.text("until");
    const auto start = std::chrono::steady_clock::now();
    const auto end = start + std::chrono::duration<double>(options.number("seconds", 15.0));
    const auto asleep_until = start + std::chrono::duration<double>(options.number("sleep", 0.0));
    while (recorder.frames < wanted && std::chrono::steady_clock::now() < end &&
           (until.empty() || recorder.last_event != until)) {
        if (std::chrono::steady_clock::now() >= asleep_until)
            (*microphone)->poll([&](const MicrophoneEvent& event) { std::visit(recorder, event); });
        std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    print({{"event", "end"},
           {"frames", recorder.frames},
           {"lost_frames", (*microphone)->lost_frames()},
           {"rate_hz", (*microphone)->rate().value()},
           {"wedged", system.wedged()}});
    return 0;
}

/// A device that hangs must not keep another from being opened.
int record_another(harpkeep::CaptureSystem& system, Options options)
{
    options.values["device"] = options.text("then");
    options.values.erase("until");
    options.values["frames"] = "4800";
    return record(system, options);
}

} // namespace

int main(int argc, char** argv)
{
    Options options;
    for (int i = 1; i + 1 < argc; i += 2) options.values[std::string{argv[i]}.substr(2)] = argv[i + 1];
    auto system = harpkeep::CaptureSystem::start();
    if (!system) return fail(system.error());
    if (options.values.contains("list")) {
        list_inputs(**system);
        return 0;
    }
    const int result = record(**system, options);
    return result == 0 && !options.text("then").empty() ? record_another(**system, options) : result;
}
