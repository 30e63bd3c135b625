// SPDX-License-Identifier: MIT
#include "ui/cli/live_device.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdio>

namespace harpkeep::cli {

void add_device_options(CLI::App& command, ui::DeviceChoice& choice)
{
    command.add_option(
        "--device", choice.wish.name,
        "name of the recording device, or a part of it (default: the first fit for measurement)");
    command.add_option("--host", choice.wish.host_api,
                       "sound system it belongs to, for example ALSA or JACK");
    command.add_option("--channel", choice.channel, "input of the device, counted from 1")
        ->check(CLI::Range(1, 64))
        ->capture_default_str();
    // An empty group hides the option from the help: it is for the virtual microphone of the tests alone.
    command.add_option("--device-speed", choice.clock_factor)->check(CLI::Range(0.1, 100.0))->group("");
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

} // namespace harpkeep::cli
