// SPDX-License-Identifier: MIT
#include "ui/cli/live_device.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdio>

namespace harpkeep::cli {

void add_device_options(CLI::App& command, DeviceWords& words)
{
    command.add_option(
        "--device", words.device,
        "name of the recording device, or a part of it (default: the first fit for measurement)");
    command.add_option("--host", words.host, "sound system it belongs to, for example ALSA or JACK");
    command.add_option("--channel", words.channel, "input of the device, counted from 1")
        ->check(CLI::Range(1, 64))
        ->capture_default_str();
    // An empty group hides the option from the help: it is for the virtual microphone of the tests alone.
    command.add_option("--device-speed", words.device_speed)->check(CLI::Range(0.1, 100.0))->group("");
}

Result<OpenMicrophone> open_microphone(const DeviceWords& words)
{
    auto system = CaptureSystem::start();
    if (!system) return failure(system.error());
    const auto device = choose_device((*system)->inputs(), {.host_api = words.host, .name = words.device});
    if (!device) return failure(device.error());
    auto microphone =
        Microphone::open(**system, *device, {.channel = words.channel, .clock_factor = words.device_speed});
    if (!microphone) return failure(microphone.error());
    OpenMicrophone open{std::move(*system), std::move(*microphone), ""};
    if (!fit_for_measurement(device->path))
        open.warning = fmt::format("\"{}\" is {}.", device->name, path_advice(device->path));
    return open;
}

nlohmann::json device_json(const AudioDevice& device)
{
    return {{"name", device.name},
            {"host", device.host_api},
            {"channels", device.input_channels},
            {"rate_hz", device.rate.value()},
            {"path", std::string{path_name(device.path)}},
            {"fit_for_measurement", fit_for_measurement(device.path)}};
}

void print_event(const nlohmann::json& line)
{
    fmt::print("{}\n", line.dump());
    std::fflush(stdout);
}

bool MicrophoneTrouble::operator()(const MicrophoneEvent& event)
{
    const std::string before = text_;
    if (const auto* lost = std::get_if<DeviceLost>(&event))
        text_ = lost->reason;
    else if (std::holds_alternative<SourceDead>(event))
        text_ = "Only silence comes in, not even noise: is the microphone muted or its cable out?";
    else if (std::holds_alternative<DeviceBack>(event) || std::holds_alternative<SourceAlive>(event))
        text_.clear();
    return text_ != before;
}

} // namespace harpkeep::cli
