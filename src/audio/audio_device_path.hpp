// SPDX-License-Identifier: MIT
#pragma once

#include "audio/audio_device.hpp"

#include <string_view>

namespace harpkeep {

/// What an input of PortAudio leads through, found without opening it.
///
/// Given      host_api, name  as PortAudio gives them
/// Returns    ALSA: hardware for the names that end in "(hw:card,device)"; else what the ALSA configuration
///            says the name is, followed through its slaves down to the first part that resamples. JACK hands
///            on the rate of its server.
/// Notes      Opening would fail on a busy device; the configuration is there all the same.
/// Reference  ALSA library, "PCM (digital audio) plugins": plug, rate, asym, dsnoop, hw
[[nodiscard]] DevicePath device_path(std::string_view host_api, std::string_view name);

} // namespace harpkeep
