// SPDX-License-Identifier: MIT
#include "ui/support/recording_device.hpp"

#include <fmt/format.h>

namespace harpkeep::ui {

Result<OpenMicrophone> open_microphone(const DeviceChoice& choice)
{
    auto system = CaptureSystem::start();
    if (!system) return failure(system.error());
    const auto device = choose_device((*system)->inputs(), choice.wish);
    if (!device) return failure(device.error());
    auto microphone =
        Microphone::open(**system, *device, {.channel = choice.channel, .clock_factor = choice.clock_factor});
    if (!microphone) return failure(microphone.error());
    OpenMicrophone open{std::move(*system), std::move(*microphone), ""};
    if (!fit_for_measurement(device->path))
        open.warning = fmt::format("\"{}\" is {}.", device->name, path_advice(device->path));
    return open;
}

Result<std::vector<AudioDevice>> recording_devices()
{
    const auto system = CaptureSystem::start();
    if (!system) return failure(system.error());
    return (*system)->inputs();
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

} // namespace harpkeep::ui
