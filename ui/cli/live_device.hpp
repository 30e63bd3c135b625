// SPDX-License-Identifier: MIT
#pragma once

#include "ui/support/recording_device.hpp"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// Adds --device, --host and --channel.
void add_device_options(CLI::App& command, ui::DeviceChoice& choice);

[[nodiscard]] nlohmann::json device_json(const AudioDevice& device);
/// One JSON object on a line of its own, sent at once.
void print_event(const nlohmann::json& line);

} // namespace harpkeep::cli
