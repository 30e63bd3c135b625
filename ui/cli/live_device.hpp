// SPDX-License-Identifier: MIT
#pragma once

#include "audio/capture_microphone.hpp"
#include "base/result.hpp"

#include <nlohmann/json_fwd.hpp>

#include <memory>
#include <string>

namespace CLI {
class App;
}

namespace harpkeep::cli {

/// Which microphone a live command listens to, as written.
struct DeviceWords {
    std::string device;
    std::string host;
    int channel = 1;
    double device_speed = 1.0; ///< hidden: virtual devices of the tests run faster than time
};

void add_device_options(CLI::App& command, DeviceWords& words);

/// A microphone that is open, and the sound system that it needs.
struct OpenMicrophone {
    std::unique_ptr<CaptureSystem> system;
    std::unique_ptr<Microphone> microphone;
    std::string warning; ///< when the device is not fit for measurement
};

/// Opens the device that the words name, or the first that is fit for measurement.
[[nodiscard]] Result<OpenMicrophone> open_microphone(const DeviceWords& words);

[[nodiscard]] nlohmann::json device_json(const AudioDevice& device);
/// One JSON object on a line of its own, sent at once.
void print_event(const nlohmann::json& line);

/// What the player should know of the microphone: nothing while all is well.
class MicrophoneTrouble {
  public:
    /// Takes an event; returns whether the trouble changed.
    bool operator()(const MicrophoneEvent& event);
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::string text_;
};

} // namespace harpkeep::cli
