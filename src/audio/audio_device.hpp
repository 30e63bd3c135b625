// SPDX-License-Identifier: MIT
#pragma once

#include "base/result.hpp"
#include "units/quantity.hpp"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace harpkeep {

/// What stands between the microphone and this program, as far as it can bend a pitch.
enum class DevicePath {
    hardware,     ///< the samples come at the clock of the sound card
    fixed_rate,   ///< a plug-in or server that hands on its own rate and no other (JACK)
    sound_server, ///< a server that resamples whenever the rate asked for is not its own
    resampling,   ///< an ALSA plug that resamples without saying so
    unknown,      ///< a plug-in that is not known here
};

[[nodiscard]] std::string_view path_name(DevicePath path);

/// One plain sentence: may this way in be measured through, and what to use instead.
///
/// Notes  The figure for ALSA's plug was measured: 0.65 to 1.47 cents of bias, with no error reported.
[[nodiscard]] std::string_view path_advice(DevicePath path);

/// Whether steps and pitches measured through this path can be believed without a second look.
[[nodiscard]] constexpr bool fit_for_measurement(DevicePath path)
{
    return path == DevicePath::hardware || path == DevicePath::fixed_rate;
}

/// A device that can record. It is known by the names of its host API and its own; its index in PortAudio's
/// list changes with every device that comes or goes and is not kept.
struct AudioDevice {
    std::string host_api; ///< "ALSA", "JACK Audio Connection Kit"
    std::string name;
    int input_channels = 0;
    Hertz rate; ///< the rate to open it at: the first of the usual ones that it takes, from 48 kHz down
    DevicePath path = DevicePath::unknown;

    bool operator==(const AudioDevice&) const = default;
};

/// Which device the user wants; empty parts do not restrict.
struct DeviceWish {
    std::string host_api;
    std::string name; ///< whole or part of the name, any case
};

/// The device that fits a wish.
///
/// Given      devices  all inputs, in PortAudio's order
///            wish     an exact name wins over a part of one; without a name, the first device that is fit
///                     for measurement
/// Returns    the device; not_found when none matches, invalid_argument when a part of a name matches
///            several, refused when no name was given and only unfit devices are there: each with the list
///            of what there is
[[nodiscard]] Result<AudioDevice> choose_device(std::span<const AudioDevice> devices, const DeviceWish& wish);

} // namespace harpkeep
