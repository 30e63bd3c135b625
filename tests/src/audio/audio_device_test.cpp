// SPDX-License-Identifier: MIT
#include "audio/audio_device.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace harpkeep;

namespace {

const std::vector<AudioDevice> devices{{.host_api = "ALSA",
                                        .name = "default",
                                        .input_channels = 2,
                                        .rate = 44100_Hz,
                                        .path = DevicePath::resampling},
                                       {.host_api = "ALSA",
                                        .name = "Desk microphone (hw:1,0)",
                                        .input_channels = 1,
                                        .rate = 48000_Hz,
                                        .path = DevicePath::hardware},
                                       {.host_api = "ALSA",
                                        .name = "Stage box (hw:2,0)",
                                        .input_channels = 8,
                                        .rate = 48000_Hz,
                                        .path = DevicePath::hardware},
                                       {.host_api = "JACK Audio Connection Kit",
                                        .name = "system",
                                        .input_channels = 2,
                                        .rate = 48000_Hz,
                                        .path = DevicePath::fixed_rate}};

} // namespace

TEST_CASE("choose_device: without a name the first device that is fit for measurement", "[audio]")
{
    CHECK(choose_device(devices, {})->name == "Desk microphone (hw:1,0)");
    CHECK(choose_device(devices, {.host_api = "jack"})->name == "system");
}

TEST_CASE("choose_device: without a name never one that resamples", "[audio]")
{
    const std::vector<AudioDevice> only_unfit{devices[0]};
    CHECK(choose_device(only_unfit, {}).error().code == ErrorCode::refused);
}

TEST_CASE("choose_device: an exact name wins, also over a better device", "[audio]")
{
    CHECK(choose_device(devices, {.name = "default"})->path == DevicePath::resampling);
}

TEST_CASE("choose_device: a part of a name is enough when it fits one", "[audio]")
{
    CHECK(choose_device(devices, {.name = "STAGE"})->name == "Stage box (hw:2,0)");
    CHECK(choose_device(devices, {.name = "hw:"}).error().code == ErrorCode::invalid_argument);
    CHECK(choose_device(devices, {.name = "lute"}).error().code == ErrorCode::not_found);
}

TEST_CASE("choose_device: no device at all is said plainly", "[audio]")
{
    CHECK(choose_device({}, {}).error().code == ErrorCode::not_found);
}
