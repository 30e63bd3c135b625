// SPDX-License-Identifier: MIT
#pragma once

#include "audio/capture_microphone.hpp"
#include "base/result.hpp"

#include <memory>
#include <string>
#include <vector>

namespace harpkeep::ui {

/// Which microphone a live session listens to.
struct DeviceChoice {
    DeviceWish wish;           ///< without a name: the first device that is fit for measurement
    int channel = 1;           ///< counted from 1
    double clock_factor = 1.0; ///< virtual devices of the tests run faster than time
};

/// A microphone that is open, and the sound system that it needs.
struct OpenMicrophone {
    std::unique_ptr<CaptureSystem> system;
    std::unique_ptr<Microphone> microphone;
    std::string warning; ///< one sentence when the device is not fit for measurement
};

[[nodiscard]] Result<OpenMicrophone> open_microphone(const DeviceChoice& choice);

/// All devices that can record, as of now. Not while a live session runs: PortAudio is one for the process.
[[nodiscard]] Result<std::vector<AudioDevice>> recording_devices();

/// What the player should know of the microphone: nothing while all is well.
class MicrophoneTrouble {
  public:
    /// Takes an event; returns whether the trouble changed.
    bool operator()(const MicrophoneEvent& event);
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    std::string text_;
};

} // namespace harpkeep::ui
