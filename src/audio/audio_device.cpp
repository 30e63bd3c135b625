// SPDX-License-Identifier: MIT
#include "audio/audio_device.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

namespace harpkeep {

namespace {

std::string lower_case(std::string_view text)
{
    std::string lower{text};
    std::transform(lower.begin(), lower.end(), lower.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return lower;
}

std::string list_of(std::span<const AudioDevice> devices)
{
    if (devices.empty()) return "no recording device is there";
    std::string list = "there are:";
    for (const AudioDevice& device : devices)
        list += fmt::format(" \"{}\" ({}, {});", device.name, device.host_api, path_name(device.path));
    list.pop_back();
    return list;
}

std::vector<AudioDevice> with_host_api(std::span<const AudioDevice> devices, const std::string& host_api)
{
    std::vector<AudioDevice> chosen;
    for (const AudioDevice& device : devices)
        if (lower_case(device.host_api).find(lower_case(host_api)) != std::string::npos)
            chosen.push_back(device);
    return chosen;
}

Result<AudioDevice> first_fit(std::span<const AudioDevice> devices)
{
    for (const AudioDevice& device : devices)
        if (fit_for_measurement(device.path)) return device;
    if (devices.empty())
        return failure(ErrorCode::not_found, "no recording device is there; plug in a microphone or sound "
                                             "card, or check a recording made on a phone instead");
    return failure(ErrorCode::refused,
                   fmt::format("every recording device here may resample and so bend the pitch; {}; name one "
                               "to use it all the same",
                               list_of(devices)));
}

} // namespace

std::string_view path_name(DevicePath path)
{
    constexpr std::array<std::string_view, 5> names{"hardware", "fixed rate", "sound server", "resampling",
                                                    "unknown"};
    return names[static_cast<std::size_t>(path)];
}

std::string_view path_advice(DevicePath path)
{
    switch (path) {
    case DevicePath::hardware:
        return "fit for measurement: the samples come at the card's own clock";
    case DevicePath::fixed_rate:
        return "fit for measurement: it hands on one rate and no other";
    case DevicePath::sound_server:
        return "not fit for measurement: the sound server may resample; use the hardware device or JACK";
    case DevicePath::resampling:
        return "not fit for measurement: it resamples without saying so and bends the pitch by a cent or "
               "more; use the hardware device";
    case DevicePath::unknown:
        break;
    }
    return "not known: whether it resamples cannot be seen; use the hardware device if there is one";
}

Result<AudioDevice> choose_device(std::span<const AudioDevice> devices, const DeviceWish& wish)
{
    const auto candidates = with_host_api(devices, wish.host_api);
    if (wish.name.empty()) return first_fit(candidates);

    for (const AudioDevice& device : candidates)
        if (device.name == wish.name) return device;

    std::vector<AudioDevice> partial;
    for (const AudioDevice& device : candidates)
        if (lower_case(device.name).find(lower_case(wish.name)) != std::string::npos)
            partial.push_back(device);
    if (partial.size() == 1) return partial.front();
    if (partial.empty())
        return failure(ErrorCode::not_found, fmt::format("no recording device is named \"{}\"; {}", wish.name,
                                                         list_of(candidates)));
    return failure(ErrorCode::invalid_argument,
                   fmt::format("\"{}\" fits several recording devices; {}", wish.name, list_of(partial)));
}

} // namespace harpkeep
